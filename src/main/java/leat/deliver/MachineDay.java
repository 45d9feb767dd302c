package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.OptionalLong;

/**
 * A machine's last day in short. Immutable.
 *
 * @param machine name of the machine
 * @param starts startups that were measured in the day before the report
 * @param standing alarms that are not back to normal
 * @param lastReadingMicros the newest reading of this run, microseconds UTC; empty for none yet
 */
public record MachineDay(
        String machine, long starts, long standing, OptionalLong lastReadingMicros) {

    public MachineDay {
        requireNonNull(machine, "machine");
        requireNonNull(lastReadingMicros, "lastReadingMicros");
    }
}
