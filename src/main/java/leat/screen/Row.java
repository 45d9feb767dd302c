package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import leat.report.Columns;
import leat.signal.PlainText;

/** One line of a screen, made of pieces. Immutable. */
public record Row(List<Piece> pieces) {

    /** Nothing. */
    static final Row EMPTY = new Row(List.of());

    /**
     * A piece of text in one ink. What would drive a terminal is made harmless.
     *
     * @param ink how it is set off
     * @param text what it says
     */
    record Piece(Ink ink, String text) {
        Piece {
            requireNonNull(ink, "ink");
            text = PlainText.harmless(text);
        }
    }

    public Row {
        pieces = List.copyOf(pieces);
    }

    static Row of(String text) {
        return of(Ink.PLAIN, text);
    }

    static Row of(Ink ink, String text) {
        return EMPTY.and(ink, text);
    }

    Row and(String text) {
        return and(Ink.PLAIN, text);
    }

    Row and(Ink ink, String text) {
        List<Piece> more = new ArrayList<>(pieces);
        more.add(new Piece(ink, text));
        return new Row(more);
    }

    /** With blanks up to a column. */
    Row to(int column) {
        return and(" ".repeat(Math.max(0, column - columns())));
    }

    /** How many columns of a terminal it takes. */
    int columns() {
        return Columns.of(text());
    }

    /** The words alone. */
    public String text() {
        return pieces.stream().map(Piece::text).collect(Collectors.joining());
    }

    /** As much of it as fits. */
    Row cut(int columns) {
        if (columns() <= columns) {
            return this;
        }
        List<Piece> kept = new ArrayList<>();
        int left = columns;
        for (Piece piece : pieces) {
            String text = Columns.cut(piece.text(), left);
            boolean isCut = !text.equals(piece.text());
            if (left > 0) {
                kept.add(new Piece(piece.ink(), text));
            }
            left -= Columns.of(text);
            if (isCut) {
                break;
            }
        }
        return new Row(kept);
    }

    /** As a terminal takes it. */
    String drawn(boolean inColour) {
        return pieces.stream()
                .map(piece -> inColour ? piece.ink().on(piece.text()) : piece.text())
                .collect(Collectors.joining());
    }
}
