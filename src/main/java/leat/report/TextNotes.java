package leat.report;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Words among the curves of a plot of characters: each as near to its point as it can stand without
 * covering a curve or other words. Thread-confined.
 */
final class TextNotes {

    /** Farther from its point nobody sees what words are about; own choice. */
    private static final int ROWS_AWAY = 3;

    private static final int COLUMNS_AWAY = 10;

    /** A row is about twice as high as a column is wide. */
    private static final int ROW_COST = 2;

    private final boolean[][] taken;
    private final char[][] words;
    private final Glyphs glyphs;

    /**
     * @param drawn where curves are, by row and column
     */
    TextNotes(boolean[][] drawn, Glyphs glyphs) {
        taken = Arrays.stream(drawn).map(boolean[]::clone).toArray(boolean[][]::new);
        words = new char[drawn.length][drawn[0].length];
        this.glyphs = glyphs;
    }

    /** A place to stand. */
    private record Place(int row, int from, String text, int cost) {}

    /** Writes words as near to a point as there is room; leaves them out where there is none. */
    void write(int row, int column, String text) {
        nearest(row, Math.max(0, Math.min(words[0].length - 1, column)), text)
                .ifPresent(
                        place -> {
                            for (int i = 0; i < place.text().length(); i++) {
                                words[place.row()][place.from() + i] = place.text().charAt(i);
                                taken[place.row()][place.from() + i] = true;
                            }
                        });
    }

    private Optional<Place> nearest(int row, int column, String text) {
        return IntStream.rangeClosed(-ROWS_AWAY, ROWS_AWAY)
                .boxed()
                .flatMap(
                        down ->
                                IntStream.rangeClosed(1, COLUMNS_AWAY)
                                        .boxed()
                                        .flatMap(away -> places(row, column, down, away, text)))
                .filter(this::isFree)
                .min(Comparator.comparingInt(Place::cost));
    }

    private Stream<Place> places(int row, int column, int down, int away, String text) {
        String right = glyphs.arrow(down, true) + " " + text;
        String left = text + " " + glyphs.arrow(down, false);
        int cost = ROW_COST * Math.abs(down) + away;
        return Stream.of(
                new Place(row + down, column + away, right, cost),
                new Place(row + down, column - away + 1 - left.length(), left, cost + 1));
    }

    /** With a free column to either side. */
    private boolean isFree(Place place) {
        int to = place.from() + place.text().length();
        if (place.row() < 0 || place.row() >= taken.length) {
            return false;
        }
        boolean[] line = taken[place.row()];
        if (place.from() < 0 || to > line.length) {
            return false;
        }
        for (int i = Math.max(0, place.from() - 1); i < Math.min(line.length, to + 1); i++) {
            if (line[i]) {
                return false;
            }
        }
        return true;
    }

    /** The line with the words of its row in it. */
    String over(int row, String line) {
        StringBuilder whole = new StringBuilder(line);
        for (int i = 0; i < words[row].length; i++) {
            if (words[row][i] != 0) {
                whole.setCharAt(i, words[row][i]);
            }
        }
        return whole.toString();
    }
}
