package leat.acquire.recording;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.function.Consumer;
import leat.signal.Input;

/** Rows of another logger as inputs: readings in the order of their time, and ticks. */
final class ForeignRows {

    private static final int NAMES_SAID = 5;

    private final CsvLine row;
    private final Consumer<Input> into;
    private final Seconds seconds;

    ForeignRows(CsvLine row, Consumer<Input> into) {
        this.row = row;
        this.into = into;
        seconds = new Seconds(into);
    }

    /** Reads them all; returns how many there were. */
    long read(Iterator<CsvLine> lines) {
        long count = 0;
        long last = Long.MIN_VALUE;
        while (Lines.next(lines)) {
            if (row.kind() == CsvLine.Content.DATA) {
                row.requireTime();
                requireForward(row.atMicros(), last);
                last = row.atMicros();
                seconds.beforeRow(last);
                row.feed(into);
                count++;
            }
        }
        seconds.end();
        return count;
    }

    private static void requireForward(long atMicros, long last) {
        if (atMicros < last) {
            throw new BadCell(
                    "time runs backwards: "
                            + IsoTime.text(atMicros)
                            + " after "
                            + IsoTime.text(last),
                    "allowed are rows in the order of their time");
        }
    }

    /** What a person should know of them. */
    List<String> notes() {
        List<String> found = new ArrayList<>();
        List<String> ignored = row.layout().ignored();
        if (!ignored.isEmpty()) {
            String more = ignored.size() > NAMES_SAID ? " and others" : "";
            found.add(
                    "Columns not read: "
                            + ignored.stream().limit(NAMES_SAID).map(BadCell::quoted).toList()
                            + more
                            + ".");
        }
        if (row.outOfRange() > 0) {
            found.add(
                    row.outOfRange()
                            + " pressures outside -15 to 500 psi were taken as BAD readings.");
        }
        if (seconds.jumps() > 0) {
            found.add(
                    "The rows pause for more than a day, "
                            + seconds.jumps()
                            + " times; no episode spans that.");
        }
        return found;
    }
}
