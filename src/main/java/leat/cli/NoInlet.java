package leat.cli;

import java.util.Optional;
import java.util.Set;
import leat.signal.Channel;
import leat.words.Saying;

/** What a person should know of a machine with one gauge, after the booster. */
final class NoInlet {

    private static final Saying NOTE = Saying.of("cli.no-inlet");

    private NoInlet() {}

    /** A whole sentence; empty where there is an inlet gauge. */
    static Optional<Saying> note(Set<Channel> wired) {
        return wired.contains(Channel.INLET) ? Optional.empty() : Optional.of(NOTE);
    }
}
