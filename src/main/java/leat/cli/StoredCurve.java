package leat.cli;

import java.util.OptionalLong;
import leat.report.Glyphs;
import leat.report.Sketch;
import leat.rule.Limit;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.store.StoreReader;
import leat.store.StoredStartup;

/**
 * The first seconds of stored startups, each as a line of a few characters.
 *
 * @param reader the store
 * @param glyphs what the terminal can show
 */
record StoredCurve(StoreReader reader, Glyphs glyphs) {

    private static final int CHARACTERS = 16;
    private static final long BEFORE_MICROS = 500_000;
    private static final long AFTER_MICROS = 7_500_000;

    /** Blank when its readings are no longer kept. */
    String of(StoredStartup stored) {
        long from = stored.startup().startedAtMicros() - BEFORE_MICROS;
        long to = stored.startup().startedAtMicros() + AFTER_MICROS;
        OptionalLong first = reader.firstSeqAt(stored.machine(), from);
        OptionalLong beyond = reader.firstSeqAt(stored.machine(), to);
        if (first.isEmpty() || first.getAsLong() > stored.seq()) {
            return "";
        }
        Sketch sketch = new Sketch(from, to, CHARACTERS);
        reader.inputs(
                stored.machine(),
                first.getAsLong() - 1,
                Math.min(stored.seq(), beyond.orElse(stored.seq())),
                (seq, input) -> {
                    if (input instanceof Reading reading && reading.channel() == Channel.BOOSTED) {
                        sketch.add(reading);
                    }
                });
        return sketch.line(glyphs.steps(), Limit.LEVEL_SET.defaultValue());
    }
}
