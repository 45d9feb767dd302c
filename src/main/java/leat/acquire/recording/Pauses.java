package leat.acquire.recording;

import java.util.Arrays;
import java.util.Optional;
import leat.signal.Channel;
import leat.words.FaultWords;

/**
 * How often the pressures of a file fall silent: a logger that writes only what changes does so all
 * the time. Thread-confined.
 */
final class Pauses {

    /** As {@code signal.blind} by default: after so long the line counts as unseen. */
    private static final long PAUSE_MICROS = 2_000_000;

    private static final long LONGEST_MICROS = Seconds.LONGEST_SILENCE;
    private static final long LEAST = 3;

    /** A logger that writes steadily and breaks off now and then pauses far more seldom. */
    private static final long READINGS_A_PAUSE = 20;

    private static final long STEP_SECONDS = 10;

    private final long[] latest = new long[Channel.values().length];
    private long readings;
    private long pauses;
    private long longest;

    Pauses() {
        Arrays.fill(latest, Long.MIN_VALUE);
    }

    void read(Channel channel, long atMicros) {
        if (!channel.isPressure()) {
            return;
        }
        readings++;
        long before = latest[channel.ordinal()];
        latest[channel.ordinal()] = atMicros;
        long pause = before == Long.MIN_VALUE ? 0 : atMicros - before;
        if (pause > PAUSE_MICROS && pause <= LONGEST_MICROS) {
            pauses++;
            longest = Math.max(longest, pause);
        }
    }

    /** What to try, where the file looks as if it held only what changed. */
    Optional<String> advice() {
        if (pauses < LEAST || pauses * READINGS_A_PAUSE < readings) {
            return Optional.empty();
        }
        long steps = longest / 1_000_000 / STEP_SECONDS + 1;
        long seconds = Math.min(LONGEST_MICROS / 1_000_000, steps * STEP_SECONDS);
        return Optional.of(
                FaultWords.english(
                        "recording.pauses", Long.toString(pauses), Long.toString(seconds)));
    }
}
