package leat.watch;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import leat.rule.Baseline;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.wire.State;

/**
 * What a watch needs to know of its machine.
 *
 * @param machine name of the machine, as in alarm ids
 * @param wired the channels that the machine has; BOOSTED always
 * @param limits what it is judged by
 * @param baseline what is usual for the machine, where a watch that starts without its past is to
 *     know it
 */
public record WatchSettings(
        String machine, Set<Channel> wired, Limits limits, Optional<Baseline> baseline) {

    /** For a watch that knows nothing of what is usual. */
    public WatchSettings(String machine, Set<Channel> wired, Limits limits) {
        this(machine, wired, limits, Optional.empty());
    }

    public WatchSettings {
        requireNonNull(machine, "machine");
        requireNonNull(limits, "limits");
        requireNonNull(baseline, "baseline");
        wired = Set.copyOf(wired);
        if (!wired.contains(Channel.BOOSTED)) {
            throw new IllegalArgumentException(machine + ": boosted must be wired");
        }
    }

    /** The same, with what is usual for the machine. */
    public WatchSettings knowing(Optional<Baseline> usual) {
        return new WatchSettings(machine, wired, limits, usual);
    }

    /** The same, with other limits. */
    public WatchSettings judgedBy(Limits other) {
        return new WatchSettings(machine, wired, other, baseline);
    }

    /** The head of a state: what it is of. Another machine's, or another wiring's, is refused. */
    void keep(State state) {
        List<Channel> channels = wired.stream().sorted().toList();
        String whose = state.keep("machine", machine);
        if (!whose.equals(machine)) {
            throw new IllegalArgumentException("state is of " + whose + ", not of " + machine);
        }
        if (!state.keep("wired", Channel.class, channels).equals(channels)) {
            throw new IllegalArgumentException("state is of a machine with other channels wired");
        }
    }
}
