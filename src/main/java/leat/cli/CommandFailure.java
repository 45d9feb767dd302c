package leat.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.InvalidPathException;
import leat.acquire.recording.RecordingException;
import leat.instruct.Refused;
import leat.signal.PlainText;
import leat.store.StoreException;
import leat.words.FaultWords;
import leat.words.Language;
import leat.words.Phrases;
import leat.words.Saying;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;

/** Turns what went wrong in a command into one clear line and an exit code. */
final class CommandFailure implements IExecutionExceptionHandler {

    /** Something that the person at the command line can mend. */
    static final class Expected extends RuntimeException {

        private static final long serialVersionUID = 1L;

        private final int code;
        private final transient Saying saying;

        /**
         * @param key of the phrase
         * @param values put into it
         */
        Expected(int code, String key, Object... values) {
            this(code, Saying.of(key, values));
        }

        private Expected(int code, Saying saying) {
            super(saying.in(Phrases.in(Language.ENGLISH)));
            this.code = code;
            this.saying = saying;
        }

        /** Of what is in words already. */
        static Expected worded(int code, String words) {
            return new Expected(code, "cli.worded", words);
        }
    }

    @Override
    public int handleExecutionException(Exception exception, CommandLine command, ParseResult words)
            throws Exception {
        Phrases phrases = Phrases.in(Speaking.of(command.getCommandSpec()));
        if (exception instanceof Expected expected) {
            return say(command, expected.saying.in(phrases), expected.code);
        }
        if (exception instanceof Refused refused) {
            return say(command, sentence(refused, phrases), ExitCode.WRONG);
        }
        if (exception instanceof RecordingException) {
            return say(command, exception.getMessage(), ExitCode.WRONG);
        }
        if (exception instanceof StoreException) {
            return say(
                    command,
                    "leat: " + new FaultWords(phrases).of(exception.getMessage()),
                    ExitCode.FAILED);
        }
        if (exception instanceof InvalidPathException) {
            return say(
                    command,
                    phrases.say("cli.no-such-file", exception.getMessage()),
                    ExitCode.WRONG);
        }
        if (exception instanceof IOException || exception instanceof UncheckedIOException) {
            return say(
                    command,
                    phrases.say("cli.file-trouble", exception.toString()),
                    ExitCode.FAILED);
        }
        throw exception;
    }

    /** Lines stay lines; whatever they quote is made harmless. */
    private static int say(CommandLine command, String message, int code) {
        message.lines().map(PlainText::harmless).forEach(command.getErr()::println);
        return code;
    }

    static String sentence(Refused refused, Phrases phrases) {
        String reason = refused.in(phrases);
        return Character.toUpperCase(reason.charAt(0)) + reason.substring(1) + ".";
    }
}
