package leat.acquire.recording;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import leat.signal.Input;
import leat.signal.Reading;

/** Rows of another logger as inputs: readings in the order of their time, and ticks. */
final class ForeignRows {

    private static final int NAMES_SAID = 5;

    /** So many rows are looked at once something is wrong: a person mends the first ones first. */
    private static final long LOOKED_AT = 100_000;

    private final CsvLine row;
    private final FileMistakes mistakes;
    private final Optional<Held> held;
    private final Consumer<Input> into;
    private final Seconds seconds;
    private final Pauses pauses = new Pauses();
    private long last = Long.MIN_VALUE;

    /**
     * @param mistakes told of what is wrong; after the first nothing more is handed out
     * @param hold how long a value holds in a log that was written on change
     */
    ForeignRows(CsvLine row, FileMistakes mistakes, Optional<Duration> hold, Consumer<Input> into) {
        this.row = row;
        this.mistakes = mistakes;
        held = hold.map(time -> new Held(time.toNanos() / 1_000, into));
        this.into = held.map(h -> (Consumer<Input>) h).orElse(into);
        seconds = new Seconds(this.into);
    }

    /** Reads them all; returns how many there were. */
    long read(Iterator<CsvLine> lines) {
        long count = 0;
        long left = LOOKED_AT;
        while (left > 0 && Lines.next(lines)) {
            if (row.kind() == CsvLine.Content.DATA) {
                check();
                if (mistakes.isEmpty()) {
                    feed();
                } else {
                    left--;
                }
                count++;
            }
        }
        seconds.end();
        return count;
    }

    private void check() {
        row.mistakes().forEach(bad -> mistakes.row(row.line(), bad));
        if (row.mistakes().isEmpty() && row.layout().time() >= 0) {
            if (row.atMicros() < last) {
                mistakes.row(row.line(), backwards().in(row.layout().time()));
            }
            last = row.atMicros();
        }
    }

    private BadCell backwards() {
        return new BadCell(
                "time runs backwards: "
                        + IsoTime.text(row.atMicros())
                        + " after "
                        + IsoTime.text(last),
                "allowed are rows in the order of their time");
    }

    private void feed() {
        held.ifPresent(each -> each.beforeRow(row));
        seconds.beforeRow(row.atMicros());
        held.ifPresent(each -> each.fill(row.atMicros() - 1));
        row.feed(
                input -> {
                    if (held.isEmpty() && input instanceof Reading reading) {
                        pauses.read(reading.channel(), reading.atMicros());
                    }
                    into.accept(input);
                });
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
        row.layout()
                .neverOn()
                .forEach(
                        name ->
                                found.add(
                                        "Column "
                                                + BadCell.quoted(name)
                                                + " never holds one of the codes: it was taken for"
                                                + " off all the time."));
        pauses.advice().ifPresent(found::add);
        held.ifPresent(
                each ->
                        found.add(
                                each.repeated()
                                        + " readings are values held by --hold. Numbers are no truer"
                                        + " than the step at which the logger writes, a rise no truer"
                                        + " than a second, and a gauge that is stuck is not found."));
        if (seconds.jumps() > 0) {
            found.add(
                    "The rows pause for more than a day, "
                            + seconds.jumps()
                            + " times; no episode spans that.");
        }
        return found;
    }
}
