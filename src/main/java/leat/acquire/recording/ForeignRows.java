package leat.acquire.recording;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import leat.signal.Input;
import leat.signal.Reading;
import leat.words.FaultWords;

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
            boolean more = ignored.size() > NAMES_SAID;
            found.add(
                    FaultWords.english(
                            more ? "recording.ignored-more" : "recording.ignored",
                            ignored.stream()
                                    .limit(NAMES_SAID)
                                    .map(BadCell::quoted)
                                    .toList()
                                    .toString()));
        }
        if (row.outOfRange() > 0) {
            found.add(
                    FaultWords.english("recording.out-of-range", Long.toString(row.outOfRange())));
        }
        row.layout()
                .neverOn()
                .forEach(
                        name ->
                                found.add(
                                        FaultWords.english(
                                                "recording.never-on", BadCell.quoted(name))));
        pauses.advice().ifPresent(found::add);
        held.ifPresent(
                each ->
                        found.add(
                                FaultWords.english(
                                        "recording.held", Long.toString(each.repeated()))));
        if (seconds.jumps() > 0) {
            found.add(FaultWords.english("recording.jumps", Long.toString(seconds.jumps())));
        }
        return found;
    }
}
