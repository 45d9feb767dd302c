package leat.config;

import static java.util.Objects.requireNonNull;

import leat.signal.PlainText;

/**
 * One thing that is wrong, or doubtful, in {@code site.yaml}, in words for the person who edits it,
 * harmless to show.
 *
 * @param file the file as it was named on the command line
 * @param line from 1; 0 when the file could not be read at all
 * @param column from 1, in characters; 0 when the file could not be read at all
 * @param path dotted path of the setting; empty when it is about the file as a whole
 * @param what what stood there and why it is wrong; never a secret
 * @param allowed what is allowed instead; empty when {@code what} says it all
 */
public record Problem(String file, int line, int column, String path, String what, String allowed) {

    /** A key may be as long as the file, and what is allowed name a thousand machines. */
    private static final int LONGEST = 1000;

    public Problem {
        file = PlainText.harmless(requireNonNull(file, "file"));
        path = PlainText.harmless(requireNonNull(path, "path"), LONGEST);
        what = PlainText.harmless(requireNonNull(what, "what"), LONGEST);
        allowed = PlainText.harmless(requireNonNull(allowed, "allowed"), LONGEST);
    }

    /** One line, or two when there is something to say on what is allowed. */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(file);
        if (line > 0) {
            text.append(':').append(line).append(':').append(column);
        }
        text.append(": ");
        if (!path.isEmpty()) {
            text.append(path).append(": ");
        }
        text.append(what);
        if (!allowed.isEmpty()) {
            text.append(System.lineSeparator()).append("    ").append(allowed);
        }
        return text.toString();
    }
}
