package leat.cli;

import leat.signal.PlainText;
import picocli.CommandLine;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** Says which words of the command line are wrong: repeated harmlessly, and cut when long. */
final class WrongWords implements IParameterExceptionHandler {

    private static final int LONGEST = 1000;

    @Override
    public int handleParseException(ParameterException e, String[] arguments) {
        CommandLine command = e.getCommandLine();
        command.getErr().println(PlainText.harmless(e.getMessage(), LONGEST));
        UnmatchedArgumentException.printSuggestions(e, command.getErr());
        command.usage(command.getErr());
        return command.getCommandSpec().exitCodeOnInvalidInput();
    }
}
