package leat.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import leat.signal.PlainText;
import leat.words.Lines;

/**
 * A table for the terminal: columns as wide as their widest cell, two spaces between. Where it is
 * wider than the terminal, spare columns are left out and the widest cells are cut, so that no row
 * wraps.
 */
public final class TextTable {

    private static final int LONGEST_CELL = 160;
    private static final int GAP = 2;
    private static final int LEAST = 4;

    /** What a column may lose. */
    private enum Need {
        /** Is shown in full as long as any other can give way. */
        FIRM,
        /** May be cut. */
        SOFT,
        /** May be left out: the one to the right goes first. */
        SPARE
    }

    /**
     * @param least so many columns stay as long as there is room for what is firm
     */
    private record Column(Need need, int least) {}

    private final List<Column> columns = new ArrayList<>();
    private final List<List<String>> rows = new ArrayList<>();

    /** With columns that are shown in full where there is room. */
    public TextTable(String... head) {
        rows.add(new ArrayList<>());
        for (String title : head) {
            column(title, new Column(Need.FIRM, 0));
        }
    }

    /** A further column, shown in full. */
    public TextTable firm(String title) {
        return column(title, new Column(Need.FIRM, 0));
    }

    /** A further column that is cut where room is short, to no less than so many columns. */
    public TextTable soft(String title, int least) {
        return column(title, new Column(Need.SOFT, least));
    }

    /** A further column that is only shown where there is room for all of it. */
    public TextTable spare(String title) {
        return column(title, new Column(Need.SPARE, 0));
    }

    private TextTable column(String title, Column column) {
        columns.add(column);
        rows.get(0).add(title);
        return this;
    }

    /**
     * Adds a row with as many cells as the head. Control characters in a cell are made harmless.
     */
    public TextTable row(String... cells) {
        if (cells.length != columns.size()) {
            throw new IllegalArgumentException(cells.length + " cells under " + rows.get(0));
        }
        rows.add(
                List.of(cells).stream()
                        .map(cell -> PlainText.harmless(cell, LONGEST_CELL))
                        .toList());
        return this;
    }

    public boolean isEmpty() {
        return rows.size() == 1;
    }

    /** Whether all of it can be shown on a terminal of that width. */
    public boolean fits(int terminal) {
        return total(widths()) <= terminal;
    }

    /** In full. */
    @Override
    public String toString() {
        return print(widths());
    }

    /** As much of it as fits on a terminal of that width. */
    public String within(int terminal) {
        int[] widths = widths();
        for (int i = columns.size() - 1; i >= 0 && total(least(widths, 2)) > terminal; i--) {
            if (columns.get(i).need() == Need.SPARE) {
                widths[i] = 0;
            }
        }
        fit(widths, least(widths, 1), terminal);
        fit(widths, IntStream.of(widths).map(width -> Math.min(width, LEAST)).toArray(), terminal);
        return print(widths);
    }

    /** All of it on a terminal of that width: what is too long for its column goes on below. */
    public String folded(int terminal) {
        int[] widths = widths();
        fit(widths, least(widths, 1), terminal);
        StringBuilder text = new StringBuilder();
        for (List<String> row : rows) {
            List<List<String>> cells = new ArrayList<>();
            for (int i = 0; i < widths.length; i++) {
                cells.add(new Lines(Math.max(1, widths[i])).add("", row.get(i), " ").broken());
            }
            int high = cells.stream().mapToInt(List::size).max().orElse(0);
            for (int line = 0; line < high; line++) {
                text.append(line(cells, line, widths)).append(System.lineSeparator());
            }
        }
        return text.toString();
    }

    private static String line(List<List<String>> cells, int line, int[] widths) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < widths.length; i++) {
            if (widths[i] > 0) {
                List<String> cell = cells.get(i);
                text.append(Columns.padded(line < cell.size() ? cell.get(line) : "", widths[i]));
                text.append(" ".repeat(GAP));
            }
        }
        return text.toString().stripTrailing();
    }

    private static void fit(int[] widths, int[] least, int terminal) {
        boolean gaveWay = true;
        while (gaveWay && total(widths) > terminal) {
            gaveWay = narrow(widths, least);
        }
    }

    /** The widest that can still give way loses a column. */
    private static boolean narrow(int[] widths, int[] least) {
        int widest = -1;
        for (int i = 0; i < widths.length; i++) {
            if (widths[i] > least[i] && (widest < 0 || widths[i] > widths[widest])) {
                widest = i;
            }
        }
        if (widest >= 0) {
            widths[widest]--;
        }
        return widest >= 0;
    }

    private int[] widths() {
        return IntStream.range(0, columns.size()).map(i -> isNeedless(i) ? 0 : width(i)).toArray();
    }

    private int width(int column) {
        return rows.stream().mapToInt(row -> Columns.of(row.get(column))).max().orElse(0);
    }

    /** A spare column with nothing but its head. */
    private boolean isNeedless(int column) {
        return columns.get(column).need() == Need.SPARE
                && rows.stream().skip(1).allMatch(row -> row.get(column).isBlank());
    }

    /** How narrow the columns may become, so many times the least where they are that wide. */
    private int[] least(int[] widths, int times) {
        return IntStream.range(0, widths.length)
                .map(
                        i ->
                                columns.get(i).need() == Need.SOFT
                                        ? Math.min(widths[i], times * columns.get(i).least())
                                        : widths[i])
                .toArray();
    }

    /** Of a whole row; a column without width is left out, with its gap. */
    private static int total(int[] widths) {
        int shown = (int) IntStream.of(widths).filter(width -> width > 0).count();
        return IntStream.of(widths).sum() + GAP * Math.max(0, shown - 1);
    }

    private String print(int[] widths) {
        StringBuilder text = new StringBuilder();
        for (List<String> row : rows) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < widths.length; i++) {
                if (widths[i] > 0) {
                    line.append(Columns.padded(Columns.cut(row.get(i), widths[i]), widths[i]));
                    line.append(" ".repeat(GAP));
                }
            }
            text.append(line.toString().stripTrailing()).append(System.lineSeparator());
        }
        return text.toString();
    }
}
