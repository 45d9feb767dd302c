package leat.screen;

import java.util.List;
import java.util.OptionalDouble;
import leat.live.LimitNow;
import leat.report.Glyphs;

/**
 * A pressure as a bar, with a stroke where a limit lies. Immutable.
 *
 * @param topPsi where the bar would be full
 * @param columns how long a full one is
 * @param glyphs what the terminal can show
 */
record PressureBar(double topPsi, int columns, Glyphs glyphs) {

    /** The level of the regulator lies at two thirds: a pressure that is too high still shows. */
    private static final double OVER_SET = 1.5;

    static PressureBar upTo(double setPsi, int columns, Glyphs glyphs) {
        return new PressureBar(OVER_SET * setPsi, columns, glyphs);
    }

    /** A blank where there is no pressure to show. */
    String of(OptionalDouble psi, List<LimitNow> limits) {
        if (psi.isEmpty()) {
            return " ".repeat(columns);
        }
        boolean plain = glyphs == Glyphs.ASCII;
        int filled = place(psi.getAsDouble());
        StringBuilder bar = new StringBuilder();
        for (int column = 0; column < columns; column++) {
            bar.append(column < filled ? plain ? '#' : '\u2588' : plain ? '.' : '\u2591');
        }
        for (LimitNow limit : limits) {
            int at = Math.min(columns - 1, place(limit.value()));
            bar.setCharAt(at, plain ? '|' : '\u2503');
        }
        return bar.toString();
    }

    private int place(double psi) {
        return (int) Math.max(0, Math.min(columns, Math.round(psi / topPsi * columns)));
    }
}
