package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.OptionalLong;

/**
 * One run of the daemon.
 *
 * @param id its number
 * @param startedMicros when it started, microseconds UTC
 * @param endedMicros its orderly end, microseconds UTC; empty while it runs, or when it was killed
 * @param version of the program
 * @param configHash the configuration that it ran under
 */
public record Run(
        long id, long startedMicros, OptionalLong endedMicros, String version, String configHash) {

    public Run {
        requireNonNull(endedMicros, "endedMicros");
        requireNonNull(version, "version");
        requireNonNull(configHash, "configHash");
    }
}
