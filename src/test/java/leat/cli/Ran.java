package leat.cli;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;

/**
 * What came of a command that a test typed.
 *
 * @param code exit code
 * @param out what it printed
 * @param err what it printed as errors and notes
 */
record Ran(int code, String out, String err) {

    /** Types a command, as a person would, on a terminal that does not tell its width. */
    static Ran leat(String... words) {
        return at(80, words);
    }

    /** Types a command on a terminal of so many columns. */
    static Ran at(int columns, String... words) {
        StringWriter out = new StringWriter();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        PrintStream before = System.err;
        System.setErr(new PrintStream(err, true, StandardCharsets.UTF_8));
        try {
            int code = Main.execute(new PrintWriter(out, true), columns, words);
            return new Ran(code, out.toString(), err.toString(StandardCharsets.UTF_8));
        } finally {
            System.setErr(before);
        }
    }
}
