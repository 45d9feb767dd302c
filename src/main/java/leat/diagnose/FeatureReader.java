package leat.diagnose;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.absence.Absence;

/** Reads the number of a feature out of observations. */
final class FeatureReader {

    /** No share is told of an inlet pressure below this. */
    private static final double LEAST_INLET_PSI = 10;

    /** What boosts by less hardly boosts; common practice, no published source. */
    private static final double LEAST_BOOST = 1.3;

    /** Gauges that read alike differ by less. */
    private static final double ALIKE_PSI = 5;

    /** What a climb from left pressure shows otherwise than one from an empty line. */
    private static final Set<Feature> OF_AN_EMPTY_LINE =
            Set.of(
                    Feature.RISE,
                    Feature.RISE_FROM_INLET,
                    Feature.BOOST_RATE,
                    Feature.START_TO_90,
                    Feature.TIME_TO_LEVEL,
                    Feature.DEAD,
                    Feature.BASE,
                    Feature.INLET_SAG,
                    Feature.INLET_DIP,
                    Feature.OVERSHOOT,
                    Feature.START_WANDER);

    private static final Figure ABSENT = Figure.absent(Absence.NOT_LOOKED_AT);

    private FeatureReader() {}

    /**
     * Of one observation; absent of what only several tell.
     *
     * @param known where the inlet gauge is known to sit; {@link InletGauge#NONE} where only this
     *     observation can tell
     */
    static Figure of(Feature feature, Observation seen, InletGauge known) {
        if (OF_AN_EMPTY_LINE.contains(feature) && isFilled(seen)) {
            return ABSENT;
        }
        return switch (feature) {
            case INLET_REST -> isDrained(seen, known) ? ABSENT : seen.ofStart(Measurand.INLET_REST);
            case INLET_DRAINED ->
                    isDrained(seen, known) ? seen.ofStart(Measurand.INLET_REST) : ABSENT;
            case INLET_SAG, INLET_DIP ->
                    isDrained(seen, known) ? ABSENT : seen.ofStart(feature.measurand());
            case UNLOADED -> unloaded(seen);
            case LOADED -> loaded(seen);
            case HIGHEST -> highest(seen);
            case LIFT -> less(loaded(seen), run(seen, Measurand.INLET_RUNNING));
            case RUN_DROP -> less(run(seen, Measurand.UNLOADED), run(seen, Measurand.LOADED));
            case REST_PRESSURE -> settled(seen).map(RestSpell::boostedPsi).orElse(ABSENT);
            case REST_SHARE -> isDrained(seen, known) ? ABSENT : restShare(seen);
            case UNBOOSTED -> unboosted(seen);
            case FALL -> seen.rest().map(RestSpell::fallSeconds).orElse(ABSENT);
            case NOT_RISEN ->
                    seen.start().map(start -> Figure.of(start.risen() ? 0 : 1)).orElse(ABSENT);
            case LEVEL_SCATTER, QUICKER -> ABSENT;
            default ->
                    feature.of() == Feature.Of.RUN
                            ? run(seen, feature.measurand())
                            : seen.ofStart(feature.measurand());
        };
    }

    /**
     * Whether the line stood under the pressure of the run before: more than the inlet has, which
     * no valve lets through.
     */
    private static boolean isFilled(Observation seen) {
        double inlet =
                Math.max(
                        seen.ofStart(Measurand.INLET_REST).orElse(0),
                        run(seen, Measurand.INLET_RUNNING).orElse(0));
        return inlet > LEAST_INLET_PSI
                && seen.ofStart(Measurand.BASE).orElse(0) > inlet + ALIKE_PSI;
    }

    private static boolean isDrained(Observation seen, InletGauge known) {
        InletGauge gauge = known == InletGauge.NONE ? InletGauge.seenIn(List.of(seen)) : known;
        return gauge == InletGauge.BEHIND_VALVE;
    }

    private static Map<Measurand, Figure> reached(Observation seen) {
        return seen.start().map(Run::of).orElse(Map.of());
    }

    private static Figure run(Observation seen, Measurand measurand) {
        return seen.run()
                .map(run -> run.figure(measurand, reached(seen)))
                .orElseGet(() -> reached(seen).getOrDefault(measurand, ABSENT));
    }

    private static Figure loaded(Observation seen) {
        Figure loaded = run(seen, Measurand.LOADED);
        return loaded.isPresent() ? loaded : run(seen, Measurand.TOP);
    }

    private static Figure unloaded(Observation seen) {
        Figure atStart = seen.ofStart(Measurand.UNLOADED);
        return atStart.isPresent() ? atStart : run(seen, Measurand.UNLOADED);
    }

    private static Figure highest(Observation seen) {
        Figure off = run(seen, Measurand.UNLOADED);
        Figure peak = off.isPresent() ? off : seen.ofStart(Measurand.PEAK);
        return peak.isPresent() ? peak : run(seen, Measurand.TOP);
    }

    private static Optional<RestSpell> settled(Observation seen) {
        return seen.rest().filter(RestSpell::settled);
    }

    private static Figure restShare(Observation seen) {
        return settled(seen)
                .filter(rest -> rest.inletPsi().orElse(0) > LEAST_INLET_PSI)
                .filter(rest -> rest.boostedPsi().isPresent())
                .map(rest -> Figure.of(rest.boostedPsi().get() / rest.inletPsi().get()))
                .orElse(ABSENT);
    }

    private static Figure unboosted(Observation seen) {
        Figure inlet = run(seen, Measurand.INLET_RUNNING);
        Figure level = loaded(seen);
        return level.isPresent() && inlet.orElse(0) > LEAST_INLET_PSI
                ? Figure.of(Math.max(0, LEAST_BOOST - level.get() / inlet.get()))
                : ABSENT;
    }

    private static Figure less(Figure one, Figure other) {
        return one.isPresent() && other.isPresent() ? Figure.of(one.get() - other.get()) : ABSENT;
    }

    /** Of what only several observations tell; absent where there are too few. */
    static Figure of(Feature feature, List<Observation> seen) {
        return switch (feature) {
            case LEVEL_SCATTER -> scatter(values(Feature.LOADED, seen));
            case QUICKER -> quicker(values(Feature.START_TO_90, seen));
            default -> ABSENT;
        };
    }

    private static double[] values(Feature feature, List<Observation> seen) {
        return seen.stream()
                .map(one -> of(feature, one, InletGauge.NONE))
                .filter(Figure::isPresent)
                .mapToDouble(Figure::get)
                .toArray();
    }

    private static Figure scatter(double[] levels) {
        if (levels.length < 2) {
            return ABSENT;
        }
        double mean = 0;
        for (double level : levels) {
            mean += level / levels.length;
        }
        double squares = 0;
        for (double level : levels) {
            squares += (level - mean) * (level - mean);
        }
        return Figure.of(Math.sqrt(squares / (levels.length - 1)));
    }

    private static Figure quicker(double[] seconds) {
        return seconds.length < 2 || !(seconds[seconds.length - 1] > 0)
                ? ABSENT
                : Figure.of(seconds[0] / seconds[seconds.length - 1]);
    }
}
