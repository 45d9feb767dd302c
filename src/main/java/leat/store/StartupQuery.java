package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * Which startups are wanted.
 *
 * @param machine name of one machine, or empty for all
 * @param sinceMicros started at or after, microseconds UTC
 * @param untilMicros started before, microseconds UTC
 * @param atMost the newest so many, 1 or more
 */
public record StartupQuery(
        Optional<String> machine, long sinceMicros, long untilMicros, int atMost) {

    public StartupQuery {
        requireNonNull(machine, "machine");
        if (atMost < 1) {
            throw new IllegalArgumentException("at most " + atMost + " startups are none");
        }
    }

    /** The newest startups of all machines. */
    public static StartupQuery newest(int atMost) {
        return new StartupQuery(Optional.empty(), Long.MIN_VALUE, Long.MAX_VALUE, atMost);
    }

    public StartupQuery of(String machineName) {
        return new StartupQuery(Optional.of(machineName), sinceMicros, untilMicros, atMost);
    }

    public StartupQuery between(long fromMicros, long toMicros) {
        return new StartupQuery(machine, fromMicros, toMicros, atMost);
    }
}
