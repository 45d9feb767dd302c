package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;
import leat.live.AlarmNow;
import leat.live.BoostNow;
import leat.live.GaugeNow;
import leat.live.LimitNow;
import leat.live.MachineNow;
import leat.report.Columns;
import leat.report.Fold;
import leat.report.Glyphs;
import leat.report.Shown;
import leat.rule.Grade;
import leat.signal.Channel;

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
                rows.addAll(rows(gauge, machine));
            }
        }
        machine.boost().ifPresent(boost -> rows.addAll(rows(boost, machine)));
        return rows;
    }

    private List<Row> rows(GaugeNow gauge, MachineNow machine) {
        int bar =
                Math.max(
                        LEAST_BAR, Math.min(LONGEST_BAR, columns - NAME - VALUE - 4 - judgement()));
        Row head = head(words.channel(gauge.channel()), words.value(gauge));
        if (gauge.value().isEmpty()) {
            return with(head, Ink.STRONG, words.whyNot(gauge));
        }
        Row row =
                head.and(
                        PressureBar.upTo(machine.setPsi(), bar, glyphs)
                                .of(gauge.value(), gauge.limits()));
        double psi = gauge.value().getAsDouble();
        return LimitNow.gravestBroken(gauge.limits(), psi)
                .map(limit -> broken(row, machine, gauge.channel(), limit, shown()::pressure))
                .orElseGet(() -> kept(row, gauge.limits(), shown()::pressure));
    }

    /** On a narrow terminal it stands below the bar. */
    private int judgement() {
        return columns >= NAME + VALUE + LEAST_BAR + JUDGEMENT ? JUDGEMENT : 0;
    }

    /** Of a level that is reached no boost is asked for. */
    private List<Row> rows(BoostNow boost, MachineNow machine) {
        Row row = head(shown().say("live.boost"), times(boost.ratio()));
        if (boost.limits().isEmpty()) {
            return with(row, Ink.FAINT, shown().say("live.boost.enough"));
        }
        return LimitNow.gravestBroken(boost.limits(), boost.ratio())
                .map(limit -> broken(row, machine, Channel.BOOSTED, limit, this::times))
                .orElseGet(() -> kept(row, boost.limits(), this::times));
    }

    private String times(double ratio) {
        return shown().say("ratio", shown().two(ratio));
    }

    private static Row head(String name, String value) {
        int blanks = Math.max(1, VALUE - Columns.of(value));
        return Row.of(Columns.padded(Columns.cut(name, NAME - 1), NAME))
                .and(" ".repeat(blanks))
                .and(Ink.STRONG, value)
                .and("  ");
    }

    private List<Row> broken(
            Row row,
            MachineNow machine,
            Channel channel,
            LimitNow limit,
            DoubleFunction<String> said) {
        Optional<AlarmNow> alarm = machine.alarmOf(channel, limit);
        Grade grade =
                alarm.map(stands -> stands.alarm().change().finding().grade())
                        .orElse(limit.grade());
        return with(row, Ink.of(grade), words.broken(limit, said.apply(limit.value()), alarm));
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

    private Shown shown() {
        return words.shown();
    }
}
