package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.Map;
import leat.signal.Channel;

/**
 * What a past consisted of.
 *
 * @param inputs everything that was fed, ticks included
 * @param readings of each channel that had any
 * @param uncertain readings that may be judged, with a doubt
 * @param bad readings without a number
 * @param late readings and ticks dropped because they were late or repeated
 * @param ahead readings dropped because they were stamped in the future
 * @param disbelieved readings judged at their arrival, because their sensor's clock was too far off
 * @param gaps silences of a pressure longer than {@code signal.blind}
 * @param longestGapMicros the longest of them
 */
public record Counts(
        long inputs,
        Map<Channel, Long> readings,
        long uncertain,
        long bad,
        long late,
        long ahead,
        long disbelieved,
        long gaps,
        long longestGapMicros) {

    public Counts {
        requireNonNull(readings, "readings");
        readings = Map.copyOf(readings);
    }

    /** Readings of all channels. */
    public long samples() {
        return readings.values().stream().mapToLong(Long::longValue).sum();
    }
}
