package leat.cli;

import java.util.Optional;
import java.util.Set;
import leat.signal.Channel;

/** What a person should know of a machine with one gauge, after the booster. */
final class NoInlet {

    private static final String NOTE =
            "No inlet gauge: the boost over the inlet, the supply and a valve that leaks through are"
                    + " not judged; the rise, the level and pressure at rest are.";

    private NoInlet() {}

    /** A whole sentence; empty where there is an inlet gauge. */
    static Optional<String> note(Set<Channel> wired) {
        return wired.contains(Channel.INLET) ? Optional.empty() : Optional.of(NOTE);
    }
}
