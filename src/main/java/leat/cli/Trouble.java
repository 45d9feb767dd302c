package leat.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import leat.acquire.recording.RecordingException;
import leat.instruct.Refused;
import leat.store.StoreException;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;

/** Turns what went wrong in a command into one clear line and an exit code. */
final class Trouble implements IExecutionExceptionHandler {

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
            command.getErr().println(expected.getMessage());
            return expected.code;
        }
        if (exception instanceof Refused refused) {
            command.getErr().println(sentence(refused));
            return refused.isAbsent() ? Main.FAILED : Main.WRONG;
        }
        if (exception instanceof RecordingException) {
            command.getErr().println(exception.getMessage());
            return Main.WRONG;
        }
        if (exception instanceof StoreException) {
            command.getErr().println("leat: " + exception.getMessage());
            return Main.FAILED;
        }
        if (exception instanceof IOException || exception instanceof UncheckedIOException) {
            command.getErr()
                    .println(
                            "leat: "
                                    + exception
                                    + ". Check the path, the rights and the room on the disk.");
            return Main.FAILED;
        }
        throw exception;
    }

    static String sentence(Refused refused) {
        String reason = refused.getMessage();
        return Character.toUpperCase(reason.charAt(0)) + reason.substring(1) + ".";
    }
}
