package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;

/**
 * A play for one or more machines.
 *
 * @param name as it is called for
 * @param description one line: what happens
 * @param expect what a watcher should say of it
 * @param seed of all chance in it
 * @param duration of one pass, above 0
 * @param loop whether it begins again after that; its faults are repaired at each pass
 * @param machines at least one, with names of their own
 */
public record Scenario(
        String name,
        String description,
        String expect,
        long seed,
        Duration duration,
        boolean loop,
        List<MachineScript> machines) {

    public Scenario {
        requireNonNull(name, "name");
        requireNonNull(description, "description");
        requireNonNull(expect, "expect");
        machines = List.copyOf(machines);
        if (duration.isZero() || duration.isNegative()) {
            throw new IllegalArgumentException(name + ": duration must be above 0");
        }
        if (machines.isEmpty()) {
            throw new IllegalArgumentException(name + ": no machine");
        }
        if (machines.stream().map(MachineScript::machine).distinct().count() != machines.size()) {
            throw new IllegalArgumentException(name + ": two machines have the same name");
        }
    }

    /** Names of the machines, in their order. */
    public List<String> machineNames() {
        return machines.stream().map(MachineScript::machine).toList();
    }
}
