package leat.acquire.recording;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What is wrong with a file of another logger, so that all of it is told at once: what is wrong
 * with its columns, and of each column the first two cells. Thread-confined.
 */
final class FileMistakes {

    private static final int OF_A_COLUMN = 2;

    /** A row as a whole. */
    private static final int NO_COLUMN = -1;

    private final Path file;
    private final List<String> told = new ArrayList<>();
    private final Map<Integer, Integer> byColumn = new TreeMap<>();
    private boolean inHeader;
    private boolean inRows;

    FileMistakes(Path file) {
        this.file = file;
    }

    boolean isEmpty() {
        return told.isEmpty();
    }

    /** About the columns. */
    void header(long line, BadCell bad) {
        inHeader = true;
        told.add(RecordingException.line(file, line, bad));
    }

    /** About a row or one of its cells. */
    void row(long line, BadCell bad) {
        inRows = true;
        int count = byColumn.merge(bad.column().orElse(NO_COLUMN), 1, Integer::sum);
        if (count <= OF_A_COLUMN) {
            told.add(RecordingException.line(file, line, bad));
        }
    }

    /** Each in a line, then what to do. */
    RecordingException exception() {
        List<String> lines = new ArrayList<>(told);
        byColumn.forEach(
                (column, count) -> {
                    if (count > OF_A_COLUMN) {
                        String where = column == NO_COLUMN ? "" : " in column " + (column + 1);
                        lines.add(file + ": and " + (count - OF_A_COLUMN) + " more" + where);
                    }
                });
        lines.add("Nothing was judged. " + next());
        return RecordingException.of(lines);
    }

    private String next() {
        String columns = "name the columns with --column as said";
        String cells = "mend these cells in the file or leave them empty";
        String both = columns + ", " + cells;
        String what = inHeader && inRows ? both : inHeader ? columns : cells;
        return Character.toUpperCase(what.charAt(0)) + what.substring(1) + ", and run it again.";
    }
}
