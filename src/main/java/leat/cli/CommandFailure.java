package leat.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.InvalidPathException;
import leat.acquire.recording.RecordingException;
import leat.instruct.Refused;
import leat.signal.PlainText;
import leat.store.StoreException;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;

/** Turns what went wrong in a command into one clear line and an exit code. */
final class CommandFailure implements IExecutionExceptionHandler {

    /** Something that the person at the command line can mend. */
    static final class Expected extends RuntimeException {

        private final int code;

        Expected(int code, String message) {
            super(message);
            this.code = code;
        }
    }

    @Override
    public int handleExecutionException(Exception exception, CommandLine command, ParseResult words)
            throws Exception {
        if (exception instanceof Expected expected) {
            return say(command, expected.getMessage(), expected.code);
        }
        if (exception instanceof Refused refused) {
            return say(command, sentence(refused), ExitCode.WRONG);
        }
        if (exception instanceof RecordingException) {
            return say(command, exception.getMessage(), ExitCode.WRONG);
        }
        if (exception instanceof StoreException) {
            return say(command, "leat: " + exception.getMessage(), ExitCode.FAILED);
        }
        if (exception instanceof InvalidPathException) {
            return say(
                    command,
                    "leat: there can be no such file: " + exception.getMessage(),
                    ExitCode.WRONG);
        }
        if (exception instanceof IOException || exception instanceof UncheckedIOException) {
            String advice = ". Check the path, the rights and the room on the disk.";
            return say(command, "leat: " + exception + advice, ExitCode.FAILED);
        }
        throw exception;
    }

    /** Lines stay lines; whatever they quote is made harmless. */
    private static int say(CommandLine command, String message, int code) {
        message.lines().map(PlainText::harmless).forEach(command.getErr()::println);
        return code;
    }

    static String sentence(Refused refused) {
        String reason = refused.getMessage();
        return Character.toUpperCase(reason.charAt(0)) + reason.substring(1) + ".";
    }
}
