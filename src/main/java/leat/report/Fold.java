package leat.report;

import java.util.stream.Collectors;
import leat.words.Lines;

/** Sentences in lines that are no wider than a terminal. */
public final class Fold {

    private Fold() {}

    /** The words in lines, further ones indented; a word that is wider than a line is broken. */
    public static String of(int columns, String words) {
        return new Lines(columns)
                .add(words).broken().stream()
                        .map(line -> broken(line, columns) + System.lineSeparator())
                        .collect(Collectors.joining());
    }

    private static String broken(String line, int columns) {
        StringBuilder text = new StringBuilder();
        String rest = line;
        while (Columns.of(rest) > columns) {
            int end = Columns.fitting(rest, columns);
            text.append(rest, 0, end).append(System.lineSeparator());
            rest = rest.substring(end);
        }
        return text.append(rest).toString();
    }
}
