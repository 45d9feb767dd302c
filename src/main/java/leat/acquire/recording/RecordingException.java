package leat.acquire.recording;

import java.nio.file.Path;
import java.util.List;
import leat.files.UnfitFile;

/**
 * A recording cannot be read: a line for each mistake, with file, line, column, what stood there
 * and what is allowed; after several, or after those that a person can mend, one that says what to
 * do.
 */
public final class RecordingException extends RuntimeException {

    private static final long serialVersionUID = 1;

    private RecordingException(String message) {
        super(message);
    }

    /** About the file as a whole. */
    static RecordingException of(Path file, String what, String allowed) {
        return new RecordingException(
                file + ": " + what + (allowed.isEmpty() ? "" : "; " + allowed));
    }

    /** About a file that is of no use, or gave up while it was read. */
    static RecordingException unreadable(Path file, Exception e) {
        return e instanceof UnfitFile unfit
                ? of(file, unfit.getMessage(), unfit.wanted())
                : of(file, "this file cannot be read: " + e.getMessage(), "");
    }

    /** These lines. */
    static RecordingException of(List<String> lines) {
        return new RecordingException(String.join("\n", lines));
    }

    /** About one line, counted from 1. */
    static RecordingException at(Path file, long line, BadCell bad) {
        return new RecordingException(line(file, line, bad));
    }

    /** The same in words. */
    static String line(Path file, long line, BadCell bad) {
        return file
                + ":"
                + line
                + ": "
                + (bad.column().isPresent() ? "column " + (bad.column().getAsInt() + 1) + ": " : "")
                + bad.getMessage()
                + (bad.allowed().isEmpty() ? "" : "; " + bad.allowed());
    }
}
