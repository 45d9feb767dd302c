package leat.acquire.recording;

import java.nio.file.Path;
import leat.files.UnfitFile;

/** A recording cannot be read: one line with file, line, what stood there and what is allowed. */
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

    /** About one line, counted from 1. */
    static RecordingException at(Path file, long line, BadCell bad) {
        return new RecordingException(
                file
                        + ":"
                        + line
                        + ": "
                        + bad.getMessage()
                        + (bad.allowed().isEmpty() ? "" : "; " + bad.allowed()));
    }
}
