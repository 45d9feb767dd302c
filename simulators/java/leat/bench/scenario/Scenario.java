package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * A play for one or more machines.
 *
 * @param name as it is called for
 * @param description one line: what happens
 * @param guide what it shows, how to tell it apart, and what a watcher should say of it
 * @param seed of all chance in it
 * @param duration of one pass, above 0
 * @param loop whether it begins again after that; its faults are repaired at each pass
 * @param publishing how the values get to an MQTT broker, where there is one
 * @param machines at least one, with names of their own
 */
public record Scenario(
        String name,
        String description,
        Guide guide,
        long seed,
        Duration duration,
        boolean loop,
        Publishing publishing,
        List<MachineScript> machines) {

    private static final Duration LONGEST_WATCHED = Duration.ofMinutes(30);

    public Scenario {
        requireNonNull(name, "name");
        requireNonNull(description, "description");
        requireNonNull(guide, "guide");
        requireNonNull(publishing, "publishing");
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

    /** One that publishes as usual and says only what to expect. */
    public Scenario(
            String name,
            String description,
            String expect,
            long seed,
            Duration duration,
            boolean loop,
            List<MachineScript> machines) {
        this(
                name,
                description,
                new Guide("", "", expect),
                seed,
                duration,
                loop,
                Publishing.USUAL,
                machines);
    }

    /** Whether it lasts longer than a person would watch: half an hour. For a recording. */
    public boolean isLong() {
        return duration.compareTo(LONGEST_WATCHED) > 0;
    }

    /** What a watcher should say of it. */
    public String expect() {
        return guide.expect();
    }

    /** The same under another seed: the same things happen, with other noise. */
    public Scenario withSeed(long other) {
        return new Scenario(name, description, guide, other, duration, loop, publishing, machines);
    }

    /** Names of the machines, in their order. */
    public List<String> machineNames() {
        return machines.stream().map(MachineScript::machine).toList();
    }

    /** Names of the machines whose jet is ever turned off while they run. */
    public Set<String> pausing() {
        return machines.stream()
                .filter(MachineScript::pauses)
                .map(MachineScript::machine)
                .collect(Collectors.toUnmodifiableSet());
    }
}
