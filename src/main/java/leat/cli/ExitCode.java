package leat.cli;

/** What a command tells the shell; the help of {@code leat} says so too. */
final class ExitCode {

    static final int DONE = 0;

    /** It did not work. */
    static final int FAILED = 1;

    /** The words or the configuration are wrong, or there is no such thing. */
    static final int WRONG = 2;

    private ExitCode() {}
}
