package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;
import leat.live.BoostNow;
import leat.live.GaugeNow;
import leat.live.LimitNow;
import leat.live.MachineNow;
import leat.report.Columns;
import leat.report.Fold;
import leat.report.Glyphs;

/**
 * The gauges of a machine: each with its pressure, a bar and what it should be. Immutable.
 *
 * @param words the words
 * @param glyphs what the terminal can show
 * @param columns of the terminal
 */
record GaugePicture(NowWords words, Glyphs glyphs, int columns) {

    private static final int NAME = 10;
    private static final int VALUE = 10;
    private static final int LEAST_BAR = 12;
    private static final int LONGEST_BAR = 50;

    /** Beside a bar there has to be room for this much of what a pressure should be. */
    private static final int JUDGEMENT = 37;

    GaugePicture {
        requireNonNull(words, "words");
        requireNonNull(glyphs, "glyphs");
    }

    List<Row> rows(MachineNow machine) {
        List<Row> rows = new ArrayList<>();
        for (GaugeNow gauge : machine.gauges()) {
            if (gauge.channel().isPressure()) {
                rows.addAll(rows(gauge, machine.setPsi()));
            }
        }
        machine.boost().ifPresent(boost -> rows.addAll(rows(boost)));
        return rows;
    }

    private List<Row> rows(GaugeNow gauge, double setPsi) {
        int bar =
                Math.max(
                        LEAST_BAR, Math.min(LONGEST_BAR, columns - NAME - VALUE - 4 - judgement()));
        Row row = head(words.channel(gauge.channel()), words.value(gauge));
        if (gauge.value().isEmpty()) {
            return with(row, Ink.STRONG, words.whyNot(gauge));
        }
        row = row.and(PressureBar.upTo(setPsi, bar, glyphs).of(gauge.value(), gauge.limits()));
        return judged(row, gauge.value().getAsDouble(), gauge.limits(), words.shown()::pressure);
    }

    /** On a narrow terminal it stands below the bar. */
    private int judgement() {
        return columns >= NAME + VALUE + LEAST_BAR + JUDGEMENT ? JUDGEMENT : 0;
    }

    private List<Row> rows(BoostNow boost) {
        Row row = head(words.shown().say("live.boost"), times(boost.ratio()));
        return boost.limits().isEmpty()
                ? with(row, Ink.FAINT, words.shown().say("live.boost.enough"))
                : judged(row, boost.ratio(), boost.limits(), this::times);
    }

    private String times(double ratio) {
        return words.shown().say("ratio", words.shown().two(ratio));
    }

    private static Row head(String name, String value) {
        int blanks = Math.max(1, VALUE - Columns.of(value));
        return Row.of(Columns.padded(Columns.cut(name, NAME - 1), NAME))
                .and(" ".repeat(blanks))
                .and(Ink.STRONG, value)
                .and("  ");
    }

    private List<Row> judged(
            Row row, double value, List<LimitNow> limits, DoubleFunction<String> said) {
        return LimitNow.gravestBroken(limits, value)
                .map(
                        limit ->
                                with(
                                        row,
                                        Ink.of(limit.grade()),
                                        words.broken(limit, said.apply(limit.value()))))
                .orElseGet(() -> kept(row, limits, said));
    }

    /** That nothing is judged has no line of its own on a narrow terminal. */
    private List<Row> kept(Row row, List<LimitNow> limits, DoubleFunction<String> said) {
        String text = words.kept(limits, said);
        if (limits.isEmpty()) {
            return fits(row, text) ? with(row, Ink.FAINT, text) : List.of(row);
        }
        return with(row, Ink.PLAIN, text);
    }

    private boolean fits(Row row, String text) {
        return row.columns() + 1 + Columns.of(text) <= columns;
    }

    /** Beside it where there is room, else below. */
    private List<Row> with(Row row, Ink ink, String text) {
        if (text.isEmpty()) {
            return List.of(row);
        }
        if (fits(row, text)) {
            return List.of(row.and(" ").and(ink, text));
        }
        List<Row> rows = new ArrayList<>(List.of(row));
        Fold.of(columns - 2, text).lines().forEach(line -> rows.add(Row.of("  ").and(ink, line)));
        return rows;
    }
}
