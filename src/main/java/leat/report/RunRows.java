package leat.report;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Run;
import leat.measure.Startup;
import leat.rule.Baseline;
import leat.rule.JudgedRun;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.RunVerdict;
import leat.rule.RunVerdict.Aspect;
import leat.rule.StartupVerdict;
import leat.words.RunWords;

/**
 * What a run was judged by, for a person, each thing beside what it should be. Immutable.
 *
 * @param shown how pressures are shown
 * @param limits what the run was judged by
 * @param baseline what was usual for its machine, where that was known
 */
public record RunRows(Shown shown, Limits limits, Optional<Baseline> baseline) {

    /**
     * One thing.
     *
     * @param title what it is, in a few plain words
     * @param measured its mean over the run with its unit, or why there is none
     * @param wanted what it should be
     * @param mark how it was
     */
    public record Line(String title, String measured, String wanted, RunVerdict.Mark mark) {}

    public RunRows {
        requireNonNull(shown, "shown");
        requireNonNull(limits, "limits");
        requireNonNull(baseline, "baseline");
    }

    /**
     * Everything that was looked at.
     *
     * @param start the start of the run
     * @param verdict how that was judged
     */
    public List<Line> lines(JudgedRun judged, Startup start, StartupVerdict verdict) {
        Map<Measurand, Figure> reached = start.risen() ? Run.of(start) : Map.of();
        return judged.verdict().parts().stream()
                .sorted(Comparator.comparing(RunVerdict.Part::aspect))
                .map(
                        part ->
                                part.aspect() == Aspect.RISE && !isTimed(verdict.outcome())
                                        ? new Line(
                                                words().aspect(Aspect.RISE),
                                                shown.verdict(verdict.outcome()),
                                                "",
                                                part.mark())
                                        : new Line(
                                                title(part.aspect(), judged.run(), reached),
                                                measured(
                                                        part.aspect(),
                                                        judged.run(),
                                                        reached,
                                                        start),
                                                wanted(part.aspect()),
                                                part.mark()))
                .toList();
    }

    /** How long the run was, and the verdict on it, such as {@code 40.0 s: low level}. */
    public String heading(JudgedRun judged, StartupVerdict start) {
        Run run = judged.run();
        return shown.span((run.endedAtMicros() - run.startedAtMicros()) / 1e6)
                + ": "
                + words().brief(judged, start);
    }

    /**
     * What a run raised, as a sentence.
     *
     * @param alarms in words; empty when there were none
     */
    public String raised(String alarms) {
        return alarms.isEmpty()
                ? shown.say("page.raised-nothing")
                : shown.say("page.raised", alarms);
    }

    private RunWords words() {
        return shown.findings().runs();
    }

    /** Whether the rise was judged by how long it took. */
    private static boolean isTimed(StartupVerdict.Outcome outcome) {
        return switch (outcome) {
            case GOOD, SLOW, VERY_SLOW, RELAXED, NOT_JUDGED -> true;
            case NOT_RISEN, NO_BOOST -> false;
        };
    }

    /** Where jet on and off were not told apart, there is one level. */
    private String title(Aspect aspect, Run run, Map<Measurand, Figure> reached) {
        boolean told =
                switch (aspect) {
                    case LOADED -> run.figure(Measurand.LOADED, reached).isPresent();
                    case UNLOADED ->
                            run.figure(Measurand.UNLOADED).isPresent()
                                    || !run.figure(Measurand.TOP).isPresent();
                    case RISE, RATIO, INLET, FILTERS -> true;
                };
        return told ? words().aspect(aspect) : words().level();
    }

    private String measured(Aspect aspect, Run run, Map<Measurand, Figure> reached, Startup start) {
        Figure figure =
                switch (aspect) {
                    case RISE -> start.riseSeconds();
                    case LOADED -> run.loadedPsi(reached);
                    case UNLOADED -> run.highestPsi(reached);
                    case RATIO -> run.figure(Measurand.RATIO, reached);
                    case INLET -> run.figure(Measurand.INLET_RUNNING, reached);
                    case FILTERS -> run.figure(Measurand.FILTER_LOSS, reached);
                };
        return figure.isPresent()
                ? shown.figure(measurand(aspect).unit(), figure)
                : "- (" + shown.findings().absence(figure.absentBecause()) + ")";
    }

    private static Measurand measurand(Aspect aspect) {
        return switch (aspect) {
            case RISE -> Measurand.RISE;
            case LOADED -> Measurand.LOADED;
            case UNLOADED -> Measurand.UNLOADED;
            case RATIO -> Measurand.RATIO;
            case INLET -> Measurand.INLET_RUNNING;
            case FILTERS -> Measurand.FILTER_LOSS;
        };
    }

    private String wanted(Aspect aspect) {
        return switch (aspect) {
            case LOADED ->
                    shown.say("limit.at-least", shown.pressure(limits.get(Limit.LEVEL_ADVISORY)));
            case UNLOADED ->
                    shown.say(
                            "limit.at-most", shown.pressure(limits.get(Limit.LEVEL_HIGH_ADVISORY)));
            case FILTERS ->
                    shown.say("limit.at-most", shown.pressure(limits.get(Limit.FILTER_ADVISORY)));
            case RISE, RATIO, INLET ->
                    new StartupRows(shown, limits, baseline).wanted(measurand(aspect));
        };
    }
}
