package leat.cli;

import java.util.List;
import leat.signal.PlainText;
import picocli.CommandLine;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** Says which words of the command line are wrong: repeated harmlessly, and cut when long. */
final class WrongWords implements IParameterExceptionHandler {

    private static final int LONGEST = 1000;

    /** Stands in messages and scripts of before. */
    private static final String OLD_ALARMS = "alerts";

    @Override
    public int handleParseException(ParameterException e, String[] arguments) {
        CommandLine command = e.getCommandLine();
        if (command.getParent() == null && List.of(arguments).indexOf(OLD_ALARMS) == 0) {
            command.getErr().println("leat alerts is called leat alarms now.");
            return command.getCommandSpec().exitCodeOnInvalidInput();
        }
        command.getErr().println(PlainText.harmless(e.getMessage(), LONGEST));
        UnmatchedArgumentException.printSuggestions(e, command.getErr());
        command.usage(command.getErr());
        return command.getCommandSpec().exitCodeOnInvalidInput();
    }
}
