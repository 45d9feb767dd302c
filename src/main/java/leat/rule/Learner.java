package leat.rule;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.rule.Learning.Cause;
import leat.rule.StartupVerdict.Outcome;
import leat.wire.State;

/**
 * Learns a machine's baseline from its good starts. The first starts after service do not count, as
 * long as air may purge. A slow start counts only when a person told leat to learn: that is how a
 * machine that is slow by nature gets a baseline; a very slow one never does. Thread-confined.
 */
final class Learner {

    private final int wanted;
    private final Lessons lessons;
    private List<Start> known = new ArrayList<>();
    private Optional<Baseline> baseline;
    private Cause cause = Cause.FIRST;

    /** Whether the last start that was judged counts: then the run and the stop after it do. */
    private boolean counted;

    /** A good start with the stop after it, and its run. */
    private record Start(
            long startedAtMicros, Map<Measurand, Double> figures, Map<Measurand, Double> run) {

        Start {
            figures = Collections.unmodifiableMap(figures);
            run = Collections.unmodifiableMap(run);
        }

        Start with(Measurand measurand, double value) {
            Map<Measurand, Double> more = new EnumMap<>(figures);
            more.putIfAbsent(measurand, value);
            return new Start(startedAtMicros, more, run);
        }

        Start with(Map<Measurand, Double> itsRun) {
            return new Start(startedAtMicros, figures, itsRun);
        }
    }

    /**
     * @param before the baseline in force, where there is one
     * @param lessons told of what is learned
     */
    Learner(Limits limits, Optional<Baseline> before, Lessons lessons) {
        wanted = (int) Math.round(limits.get(Limit.BASELINE_STARTS));
        baseline = before;
        this.lessons = lessons;
    }

    /** Empty while it is learned. */
    Optional<Baseline> baseline() {
        return baseline;
    }

    /** What was learned is out of date: learns from the next starts on. */
    void begin(Cause why, long atMicros) {
        cause = why;
        baseline = Optional.empty();
        known.clear();
        counted = false;
        lessons.progressed(new Learning(atMicros, 0, wanted, cause));
    }

    /**
     * Takes a start that has been judged.
     *
     * @param relaxed whether it is one of the first after service
     */
    void take(Startup startup, StartupVerdict verdict, boolean relaxed) {
        counted = baseline.isEmpty() && !relaxed && counts(verdict.outcome());
        if (!counted) {
            return;
        }
        known.add(new Start(startup.startedAtMicros(), present(startup.figures()), Map.of()));
        if (known.size() < wanted) {
            lessons.progressed(
                    new Learning(startup.measuredAtMicros(), known.size(), wanted, cause));
            return;
        }
        Baseline learned = learn(startup.measuredAtMicros());
        baseline = Optional.of(learned);
        known.clear();
        counted = false;
        lessons.learned(learned);
    }

    /** Takes the run of the last start; a good one. */
    void take(Run run) {
        if (counted && run.startedAtMicros() == last().startedAtMicros()) {
            known.set(known.size() - 1, last().with(present(run.figures())));
        }
    }

    /** Takes the stop after the last start. */
    void take(RestSpell rest) {
        if (counted && rest.fallSeconds().isPresent()) {
            known.set(known.size() - 1, last().with(Measurand.FALL, rest.fallSeconds().get()));
        }
    }

    private Start last() {
        return known.get(known.size() - 1);
    }

    private boolean counts(Outcome outcome) {
        return switch (outcome) {
            case GOOD -> true;
            case SLOW -> cause == Cause.COMMAND;
            case VERY_SLOW, NOT_RISEN, NO_BOOST, RELAXED, NOT_JUDGED -> false;
        };
    }

    private static Map<Measurand, Double> present(Map<Measurand, Figure> figures) {
        Map<Measurand, Double> present = new EnumMap<>(Measurand.class);
        figures.forEach(
                (measurand, figure) -> {
                    if (figure.isPresent()) {
                        present.put(measurand, figure.get());
                    }
                });
        return present;
    }

    private Baseline learn(long atMicros) {
        return new Baseline(
                atMicros,
                known.stream().map(Start::startedAtMicros).toList(),
                usual(Start::figures),
                usual(Start::run));
    }

    /** What is usual of each number that most of the starts have. */
    private Map<Measurand, Usual> usual(Function<Start, Map<Measurand, Double>> part) {
        Map<Measurand, Usual> usual = new EnumMap<>(Measurand.class);
        for (Measurand measurand : Measurand.values()) {
            double[] values =
                    known.stream()
                            .map(part)
                            .filter(figures -> figures.containsKey(measurand))
                            .mapToDouble(figures -> figures.get(measurand))
                            .toArray();
            if (2 * values.length > known.size()) {
                usual.put(measurand, Usual.of(measurand, values));
            }
        }
        return usual;
    }

    void keep(State state) {
        baseline = state.keep("baseline", Baseline.class, baseline);
        cause = state.keep("cause", cause);
        known = new ArrayList<>(state.keep("known", Start.class, known));
        counted = state.keep("counted", counted);
    }
}
