package leat.system;

import java.time.Duration;
import java.util.Locale;
import java.util.function.Supplier;

/**
 * The instruments of one machine that send what they read with the time by a clock of their own, as
 * a line of JSON. Thread-safe.
 */
final class ClockedSensors implements Supplier<String> {

    /** The channels of {@code site.yaml}, indented by six; the topic goes in three times. */
    static final String CHANNELS =
            """
                  inlet: { from: hall, topic: { name: %1$s, value: /inlet, time: /t, time_format: epoch_ms, silent_after: 3 s }, unit: psi }
                  boosted: { from: hall, topic: { name: %1$s, value: /boosted, time: /t, time_format: epoch_ms, silent_after: 3 s }, unit: psi }
                  running: { from: hall, topic: { name: %1$s, value: /running, time: /t, time_format: epoch_ms, silent_after: 3 s } }
            """;

    private record Shown(double inletPsi, double boostedPsi, boolean running) {}

    private volatile Shown shown = new Shown(40, 102, true);
    private volatile Supplier<Duration> error = () -> Duration.ZERO;

    /** Shows pressures of a running booster. */
    void show(double inletPsi, double boostedPsi) {
        shown = new Shown(inletPsi, boostedPsi, true);
    }

    /** Shows a booster that stands still. */
    void rest(double inletPsi) {
        shown = new Shown(inletPsi, 0, false);
    }

    /** From now on their clock is so far ahead of the real one, asked for each line. */
    void beAhead(Supplier<Duration> newError) {
        error = newError;
    }

    @Override
    public String get() {
        Shown now = shown;
        return String.format(
                Locale.ROOT,
                "{\"t\":%d,\"inlet\":%.1f,\"boosted\":%.1f,\"running\":%d}",
                System.currentTimeMillis() + error.get().toMillis(),
                now.inletPsi(),
                now.boostedPsi(),
                now.running() ? 1 : 0);
    }
}
