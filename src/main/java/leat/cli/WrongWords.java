package leat.cli;

import java.util.Collection;
import java.util.Optional;
import leat.config.Spelling;
import leat.signal.PlainText;
import picocli.CommandLine;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/**
 * Says in two lines which words of the command line are wrong, and where help is. A word is
 * repeated harmlessly, and cut when long.
 */
final class WrongWords implements IParameterExceptionHandler {

    private static final int LONGEST = 1000;

    /** Shorter ones are like any other: -x is no slip of -h. */
    private static final int SHORTEST_MEANT = 3;

    @Override
    public int handleParseException(ParameterException e, String[] arguments) {
        CommandLine command = e.getCommandLine();
        CommandSpec spec = command.getCommandSpec();
        String wrong = e instanceof UnmatchedArgumentException u ? words(spec, u) : e.getMessage();
        command.getErr().println(PlainText.harmless(wrong, LONGEST));
        command.getErr()
                .println(
                        spec.parent() == null
                                ? "See: leat help"
                                : "See: " + spec.qualifiedName() + " --help");
        return spec.exitCodeOnInvalidInput();
    }

    private static String words(CommandSpec spec, UnmatchedArgumentException e) {
        String word = e.getUnmatched().get(0);
        if (e.isUnknownOption()) {
            String name = word.split("=", 2)[0];
            return "%s has no option %s.%s"
                    .formatted(spec.qualifiedName(), name, meant(name, spec.optionsMap().keySet()));
        }
        if (!spec.subcommands().isEmpty()) {
            return "There is no command %s.%s"
                    .formatted(word, meant(word, spec.subcommands().keySet()));
        }
        return "%s takes no further word, such as %s.".formatted(spec.qualifiedName(), word);
    }

    private static String meant(String word, Collection<String> known) {
        String letters = letters(word);
        if (letters.length() < SHORTEST_MEANT) {
            return "";
        }
        Optional<String> meant =
                Spelling.closest(letters, known.stream().map(WrongWords::letters).toList());
        return known.stream()
                .filter(each -> meant.filter(letters(each)::equals).isPresent())
                .findFirst()
                .map(each -> " Did you mean " + each + "?")
                .orElse("");
    }

    private static String letters(String word) {
        return word.replaceFirst("^-+", "");
    }
}
