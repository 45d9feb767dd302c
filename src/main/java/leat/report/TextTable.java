package leat.report;

import java.util.ArrayList;
import java.util.List;
import leat.signal.PlainText;

/** A table for the terminal: columns as wide as their widest cell, two spaces between. */
public final class TextTable {

    private static final int LONGEST_CELL = 160;

    private final List<List<String>> rows = new ArrayList<>();

    public TextTable(String... head) {
        rows.add(List.of(head));
    }

    /**
     * Adds a row with as many cells as the head. Control characters in a cell are made harmless.
     */
    public TextTable row(String... cells) {
        if (cells.length != rows.get(0).size()) {
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

    @Override
    public String toString() {
        int columns = rows.get(0).size();
        int[] widths = new int[columns];
        for (List<String> row : rows) {
            for (int i = 0; i < columns; i++) {
                widths[i] = Math.max(widths[i], row.get(i).length());
            }
        }
        StringBuilder text = new StringBuilder();
        for (List<String> row : rows) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < columns; i++) {
                line.append(row.get(i)).append(" ".repeat(widths[i] - row.get(i).length() + 2));
            }
            text.append(line.toString().stripTrailing()).append(System.lineSeparator());
        }
        return text.toString();
    }
}
