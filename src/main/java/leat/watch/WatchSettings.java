package leat.watch;

import static java.util.Objects.requireNonNull;

import java.util.Set;
import leat.rule.Limits;
import leat.signal.Channel;

/**
 * What a watch needs to know of its machine.
 *
 * @param machine name of the machine, as in alarm ids
 * @param wired the channels that the machine has; INLET and BOOSTED always
 * @param limits what it is judged by
 */
public record WatchSettings(String machine, Set<Channel> wired, Limits limits) {

    public WatchSettings {
        requireNonNull(machine, "machine");
        requireNonNull(limits, "limits");
        wired = Set.copyOf(wired);
        if (!wired.contains(Channel.INLET) || !wired.contains(Channel.BOOSTED)) {
            throw new IllegalArgumentException(machine + ": inlet and boosted must be wired");
        }
    }
}
