package leat.rule;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Measurand;
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

    private record Start(long startedAtMicros, Map<Measurand, Double> figures) {}

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
        lessons.progressed(new Learning(atMicros, 0, wanted, cause));
    }

    /**
     * Takes a start that has been judged.
     *
     * @param relaxed whether it is one of the first after service
     */
    void take(Startup startup, StartupVerdict verdict, boolean relaxed) {
        if (baseline.isPresent() || relaxed || !counts(verdict.outcome())) {
            return;
        }
        known.add(new Start(startup.startedAtMicros(), present(startup)));
        if (known.size() < wanted) {
            lessons.progressed(
                    new Learning(startup.measuredAtMicros(), known.size(), wanted, cause));
            return;
        }
        Baseline learned = learn(startup.measuredAtMicros());
        baseline = Optional.of(learned);
        known.clear();
        lessons.learned(learned);
    }

    private boolean counts(Outcome outcome) {
        return switch (outcome) {
            case GOOD -> true;
            case SLOW -> cause == Cause.COMMAND;
            case VERY_SLOW, NOT_RISEN, NO_BOOST, RELAXED, NOT_JUDGED -> false;
        };
    }

    private static Map<Measurand, Double> present(Startup startup) {
        Map<Measurand, Double> present = new EnumMap<>(Measurand.class);
        startup.figures()
                .forEach(
                        (measurand, figure) -> {
                            if (figure.isPresent()) {
                                present.put(measurand, figure.get());
                            }
                        });
        return present;
    }

    private Baseline learn(long atMicros) {
        Map<Measurand, Usual> figures = new EnumMap<>(Measurand.class);
        for (Measurand measurand : Measurand.values()) {
            double[] values =
                    known.stream()
                            .filter(start -> start.figures().containsKey(measurand))
                            .mapToDouble(start -> start.figures().get(measurand))
                            .toArray();
            if (2 * values.length > known.size()) {
                figures.put(measurand, Usual.of(measurand, values));
            }
        }
        return new Baseline(atMicros, known.stream().map(Start::startedAtMicros).toList(), figures);
    }

    void keep(State state) {
        baseline = state.keep("baseline", Baseline.class, baseline);
        cause = state.keep("cause", cause);
        known = new ArrayList<>(state.keep("known", Start.class, known));
    }
}
