package leat.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import leat.signal.PressureUnit;

/**
 * Two pressures over time on a terminal: the boosted one as a line, the inlet as a thinner one, and
 * limits across. Immutable but for what is marked before it is drawn; thread-confined.
 */
public final class TextPlot {

    private static final int ROWS = 12;
    private static final int DOTS_DOWN = 4;
    private static final int DOTS_ACROSS = 2;
    private static final char BRAILLE = '\u2800';

    /** Bits of a braille pattern, by column and row of the dot. */
    private static final int[][] BITS = {{0x01, 0x02, 0x04, 0x40}, {0x08, 0x10, 0x20, 0x80}};

    private static final int LABEL = 6;
    private static final double MOST_LABELS = 5;

    private final Sketch inlet;
    private final Sketch boosted;
    private final Glyphs glyphs;
    private final PressureUnit unit;
    private int rows = ROWS;
    private final List<Mark> marks = new ArrayList<>();
    private final List<Note> notes = new ArrayList<>();

    /** A limit across the plot. */
    private record Mark(double psi, String name) {}

    /** Words about a point of a curve. */
    private record Note(double share, double psi, String text) {}

    /**
     * @param inlet with {@link #columns} columns, as {@code boosted}
     * @param unit of the axis
     */
    public TextPlot(Sketch inlet, Sketch boosted, Glyphs glyphs, PressureUnit unit) {
        this.inlet = inlet;
        this.boosted = boosted;
        this.glyphs = glyphs;
        this.unit = unit;
    }

    /** How many columns of readings fit into so many characters. */
    public static int columns(Glyphs glyphs, int characters) {
        return characters * (glyphs == Glyphs.ASCII ? 1 : DOTS_ACROSS);
    }

    /** Draws it so many lines high, instead of 12. */
    public TextPlot high(int lines) {
        rows = lines;
        return this;
    }

    /** Draws a limit across, with its name at the right. */
    public TextPlot limit(double psi, String name) {
        marks.add(new Mark(psi, name));
        return this;
    }

    /**
     * Puts words beside a point, with an arrow to it; where there is no room for them beside the
     * curves they are left out.
     *
     * @param share where in the window of time, 0 to 1
     */
    public TextPlot note(double share, double psi, String text) {
        notes.add(new Note(share, psi, text));
        return this;
    }

    /** The lines of the plot, top first, without the axis of time. */
    public List<String> lines() {
        double top = top();
        double bottom = Math.min(0, Math.max(-15, Math.min(inlet.lowest(), boosted.lowest())));
        bottom = bottom < -top / rows ? bottom : 0;
        Canvas canvas = new Canvas(bottom, top);
        marks.forEach(mark -> canvas.across(mark.psi()));
        canvas.curve(inlet, 'o', 2);
        canvas.curve(boosted, '#', 1);
        TextNotes written = new TextNotes(canvas.isDrawn(), glyphs);
        for (Note note : notes) {
            int column = (int) (note.share() * canvas.width);
            written.write(canvas.row(note.psi()), column, note.text());
        }
        List<String> lines = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            String label = label(canvas, row);
            lines.add(
                    label
                            + (label.isBlank() ? glyphs.axis() : glyphs.cross())
                            + written.over(row, canvas.line(row))
                            + " "
                            + names(canvas, row));
        }
        return lines.stream().map(String::stripTrailing).toList();
    }

    private double top() {
        double top = Math.max(inlet.highest(), boosted.highest());
        for (Mark mark : marks) {
            top = Math.max(top, mark.psi());
        }
        return Math.max(top, 10) * 1.04;
    }

    /** A round pressure, in the row that it falls into. */
    private String label(Canvas canvas, int row) {
        double step = roundStep(unit.fromPsi(canvas.top - canvas.bottom) / MOST_LABELS);
        double first = Math.ceil(unit.fromPsi(canvas.bottom) / step) * step;
        for (double value = first; value <= unit.fromPsi(canvas.top); value += step) {
            if (canvas.row(unit.toPsi(value)) == row) {
                return String.format(
                        Locale.ROOT, "%" + LABEL + "." + (step < 1 ? 1 : 0) + "f ", value + 0.0);
            }
        }
        return " ".repeat(LABEL + 1);
    }

    /** 1, 2 or 5 times a power of ten, not below {@code least}. */
    private static double roundStep(double least) {
        double power = Math.pow(10, Math.floor(Math.log10(least)));
        for (double times : new double[] {1, 2, 5}) {
            if (times * power >= least) {
                return times * power;
            }
        }
        return 10 * power;
    }

    private String names(Canvas canvas, int row) {
        StringBuilder names = new StringBuilder();
        for (Mark mark : marks) {
            if (canvas.row(mark.psi()) == row) {
                names.append(names.isEmpty() ? "" : ", ").append(mark.name());
            }
        }
        return names.toString();
    }

    /** Characters, and the dots in them. */
    private final class Canvas {

        private final double bottom;
        private final double top;
        private final int perCell = glyphs == Glyphs.ASCII ? 1 : DOTS_ACROSS;
        private final int downPerCell = glyphs == Glyphs.ASCII ? 1 : DOTS_DOWN;
        private final int width = (boosted.columns() + perCell - 1) / perCell;
        private final char[][] cells = new char[rows][width];
        private final boolean[] across = new boolean[rows];

        Canvas(double bottom, double top) {
            this.bottom = bottom;
            this.top = top;
        }

        private int dot(double psi) {
            int dots = rows * downPerCell;
            double share = (top - psi) / (top - bottom);
            return Math.max(0, Math.min(dots - 1, (int) (share * dots)));
        }

        int row(double psi) {
            return dot(psi) / downPerCell;
        }

        void across(double psi) {
            across[row(psi)] = true;
        }

        /** Joins each column to the one before it; with {@code every} 2 only each second. */
        void curve(Sketch sketch, char letter, int every) {
            int previousFrom = -1;
            int previousTo = -1;
            for (int column = 0; column < sketch.columns(); column++) {
                if (sketch.isEmpty(column)) {
                    previousFrom = -1;
                    continue;
                }
                int from = dot(sketch.high(column));
                int to = dot(sketch.low(column));
                boolean joins = previousFrom >= 0;
                int drawnFrom = joins ? Math.min(from, previousTo + 1) : from;
                int drawnTo = joins ? Math.max(to, previousFrom - 1) : to;
                if (column % every == 0 || drawnTo - drawnFrom > 1) {
                    for (int dot = drawnFrom; dot <= drawnTo; dot++) {
                        set(column, dot, letter);
                    }
                }
                previousFrom = from;
                previousTo = to;
            }
        }

        private void set(int column, int dot, char letter) {
            int row = dot / downPerCell;
            int cell = column / perCell;
            if (glyphs == Glyphs.ASCII) {
                cells[row][cell] = letter;
            } else {
                cells[row][cell] |= (char) BITS[column % DOTS_ACROSS][dot % DOTS_DOWN];
            }
        }

        /** By row and column. */
        boolean[][] isDrawn() {
            boolean[][] drawn = new boolean[rows][width];
            for (int row = 0; row < rows; row++) {
                for (int column = 0; column < width; column++) {
                    drawn[row][column] = cells[row][column] != 0;
                }
            }
            return drawn;
        }

        String line(int row) {
            StringBuilder line = new StringBuilder(width);
            for (char cell : cells[row]) {
                if (cell == 0) {
                    line.append(across[row] ? glyphs.limit() : " ");
                } else {
                    line.append(glyphs == Glyphs.ASCII ? cell : (char) (BRAILLE + cell));
                }
            }
            return line.toString();
        }
    }
}
