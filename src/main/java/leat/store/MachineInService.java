package leat.store;

import static java.util.Objects.requireNonNull;

import leat.alarm.ServiceChange;

/**
 * A machine that somebody works on at present.
 *
 * @param machine name of the machine
 * @param change how the service began or last went on
 */
public record MachineInService(String machine, ServiceChange change) {

    public MachineInService {
        requireNonNull(machine, "machine");
        requireNonNull(change, "change");
    }
}
