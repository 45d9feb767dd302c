package leat.cli;

import java.io.Console;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import picocli.CommandLine.Option;

/** Asks the person at the terminal before something is changed. */
final class YesOrNo {

    private static final Set<String> YES = Set.of("y", "yes");

    @Option(names = "--yes", description = "do not ask, for scripts")
    private boolean yes;

    /**
     * Whether it is to be done. Whoever types nothing, or something else, says no.
     *
     * @param question without the words on how to answer
     */
    boolean says(String question) {
        return yes || ask(question, Optional.ofNullable(System.console()));
    }

    private static boolean ask(String question, Optional<Console> terminal) {
        Console console =
                terminal.orElseThrow(
                        () ->
                                new CommandFailure.Expected(
                                        ExitCode.WRONG,
                                        "There is no terminal to ask at, and nothing was changed."
                                                + " Look at what is said above; --yes does it."));
        return isYes(Optional.ofNullable(console.readLine("%s [y/N] ", question)));
    }

    static boolean isYes(Optional<String> answer) {
        return answer.filter(a -> YES.contains(a.strip().toLowerCase(Locale.ROOT))).isPresent();
    }
}
