package leat.cli;

import java.io.Console;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import leat.words.Phrases;
import picocli.CommandLine.Option;

/** Asks the person at the terminal before something is changed. */
final class YesOrNo {

    private static final Set<String> YES = Set.of("y", "yes", "j", "ja");

    @Option(names = "--yes", description = "do not ask, for scripts")
    private boolean yes;

    /**
     * Whether it is to be done. Whoever types nothing, or something else, says no.
     *
     * @param question without the words on how to answer
     */
    boolean says(String question, Phrases phrases) {
        String asked = phrases.say("cli.yes-or-no", question);
        return yes || ask(asked, Optional.ofNullable(System.console()));
    }

    private static boolean ask(String question, Optional<Console> terminal) {
        Console console =
                terminal.orElseThrow(
                        () -> new CommandFailure.Expected(ExitCode.WRONG, "cli.no-terminal"));
        return isYes(Optional.ofNullable(console.readLine("%s ", question)));
    }

    static boolean isYes(Optional<String> answer) {
        return answer.filter(a -> YES.contains(a.strip().toLowerCase(Locale.ROOT))).isPresent();
    }
}
