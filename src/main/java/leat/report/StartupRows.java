package leat.report;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.rule.Baseline;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.RiseLimit;

/**
 * The numbers of a startup for a person, beside what they should be. Immutable.
 *
 * @param shown how pressures are shown
 * @param limits what the startup was judged by
 * @param baseline what was usual for its machine, where that was known
 */
public record StartupRows(Shown shown, Limits limits, Optional<Baseline> baseline) {

    /**
     * One number.
     *
     * @param measurand what it is
     * @param title the same in a few plain words
     * @param figure the number
     * @param usual what is usual for the machine with its spread, in words; empty when not known
     * @param wanted what it should be, in words; empty when nothing is asked of it
     */
    public record Line(
            Measurand measurand, String title, Figure figure, String usual, String wanted) {}

    /** Shown on a terminal even when they are absent: a person looks for them. */
    private static final Set<Measurand> FIRST =
            EnumSet.of(
                    Measurand.BASE,
                    Measurand.TOP,
                    Measurand.INLET_RUNNING,
                    Measurand.RATIO,
                    Measurand.DEAD,
                    Measurand.RISE,
                    Measurand.RISE_FROM_INLET,
                    Measurand.START_TO_90,
                    Measurand.TIME_TO_DOUBLE,
                    Measurand.OVERSHOOT);

    /** Shown on a terminal where they could be measured. */
    private static final Set<Measurand> SECOND =
            EnumSet.of(
                    Measurand.BOOST_RATE,
                    Measurand.UNLOADED,
                    Measurand.LOADED,
                    Measurand.DROP,
                    Measurand.PEAK,
                    Measurand.PEAK_DROP,
                    Measurand.FILTER_LOSS,
                    Measurand.INLET_SAG,
                    Measurand.TIME_TO_LEVEL,
                    Measurand.SETTLING,
                    Measurand.RIPPLE);

    public StartupRows {
        requireNonNull(shown, "shown");
        requireNonNull(limits, "limits");
        requireNonNull(baseline, "baseline");
    }

    /** Every number, in the order of {@link Measurand}. */
    public List<Line> lines(Startup startup) {
        Map<Measurand, String> wanted = wanted();
        List<Line> lines = new ArrayList<>();
        startup.figures()
                .forEach(
                        (measurand, figure) ->
                                lines.add(
                                        new Line(
                                                measurand,
                                                title(measurand),
                                                figure,
                                                usual(measurand),
                                                wanted.getOrDefault(measurand, ""))));
        return lines;
    }

    /** What fits beside a curve on one screen. */
    public TextTable table(Startup startup, Glyphs glyphs) {
        TextTable table =
                baseline.isPresent()
                        ? new TextTable()
                                .soft("", 21)
                                .soft(shown.say("replay.column.measured"), 17)
                                .soft(shown.say("replay.column.usual"), 17)
                                .soft(shown.say("replay.column.should"), 19)
                        : new TextTable()
                                .soft("", 31)
                                .soft(shown.say("replay.column.measured"), 19)
                                .soft(shown.say("replay.column.should"), 26);
        for (Line line : lines(startup)) {
            if (isForTerminal(line)) {
                row(line, glyphs, table);
            }
        }
        return table;
    }

    /** Whether paper has room for it: the first of them, where they were measured. */
    static boolean isForPaper(Line line) {
        return FIRST.contains(line.measurand()) && line.figure().isPresent();
    }

    private static boolean isForTerminal(Line line) {
        boolean kept =
                FIRST.contains(line.measurand())
                        || SECOND.contains(line.measurand()) && line.figure().isPresent();
        return kept && !isToldOnce(line);
    }

    /** That there is no inlet gauge is said where a person looks for the inlet, and there alone. */
    private static boolean isToldOnce(Line line) {
        return line.measurand() != Measurand.INLET_RUNNING
                && line.figure().absence().equals(Optional.of(Absence.NO_INLET_GAUGE));
    }

    private void row(Line line, Glyphs glyphs, TextTable table) {
        String measured =
                line.figure().isPresent()
                        ? glyphs.shown(shown.figure(line.measurand().unit(), line.figure()))
                        : "- (" + shown.findings().absence(line.figure().absentBecause()) + ")";
        if (baseline.isPresent()) {
            table.row(line.title(), measured, glyphs.shown(line.usual()), line.wanted());
        } else {
            table.row(line.title(), measured, line.wanted());
        }
    }

    private String title(Measurand measurand) {
        return measurand == Measurand.TIME_TO_LEVEL
                ? shown.say(
                        "wanted.time-to-level", shown.pressure(limits.get(Limit.RISE_FIXED_LEVEL)))
                : shown.findings().title(measurand);
    }

    private String usual(Measurand measurand) {
        return baseline.flatMap(known -> known.usual(measurand))
                .map(usual -> shown.usual(measurand.unit(), usual))
                .orElse("");
    }

    /** What it should be, in words; empty when nothing is asked of it. */
    String wanted(Measurand measurand) {
        return wanted().getOrDefault(measurand, "");
    }

    /** Whether a number of a start lies beyond what it should be. */
    boolean isBeyond(Measurand measurand, Startup startup) {
        Figure figure = startup.figure(measurand);
        if (!figure.isPresent()) {
            return false;
        }
        double value = figure.get();
        return switch (measurand) {
            case TOP ->
                    value < limits.get(Limit.LEVEL_ADVISORY)
                            || value > limits.get(Limit.LEVEL_HIGH_ADVISORY);
            case INLET_RUNNING -> value < limits.get(Limit.INLET_ADVISORY);
            case RATIO ->
                    value < limits.get(Limit.RATIO_WARNING)
                            && startup.topPsi().orElse(0) < limits.levelReachedPsi();
            case RISE -> value > RiseLimit.advisory(limits, baseline).seconds();
            case START_TO_90 -> value > limits.get(Limit.RISE_CRITICAL);
            default -> false;
        };
    }

    private Map<Measurand, String> wanted() {
        return Map.of(
                Measurand.BASE,
                shown.say("wanted.base"),
                Measurand.TOP,
                shown.say(
                        "wanted.top",
                        shown.pressure(limits.get(Limit.LEVEL_ADVISORY)),
                        shown.pressure(limits.get(Limit.LEVEL_HIGH_ADVISORY))),
                Measurand.INLET_RUNNING,
                shown.say("limit.at-least", shown.pressure(limits.get(Limit.INLET_ADVISORY))),
                Measurand.RATIO,
                shown.say(
                        "wanted.ratio",
                        shown.number(limits.get(Limit.RATIO_WARNING), 2),
                        shown.pressure(limits.levelReachedPsi())),
                Measurand.RISE,
                shown.say(
                        "wanted.rise",
                        shown.number(RiseLimit.advisory(limits, baseline).seconds(), 1),
                        shown.number(RiseLimit.warning(limits, baseline).seconds(), 1)),
                Measurand.START_TO_90,
                shown.say("wanted.start-to-90", shown.number(limits.get(Limit.RISE_CRITICAL), 0)));
    }
}
