package leat.measure;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import leat.measure.absence.Absence;

/**
 * The numbers of one run of the booster, from its start to its stop, or of as much of it as is
 * over. Immutable.
 *
 * @param startedAtMicros the start, as of its {@link Startup}, or when it was first seen running;
 *     microseconds UTC
 * @param endedAtMicros the stop, or until when it has been measured; microseconds UTC
 * @param over false while it still runs
 * @param figures means with the uncertainty of the mean, or why there is none: {@link
 *     Measurand#LOADED}, {@link Measurand#UNLOADED}, {@link Measurand#TOP} whatever was drawn,
 *     {@link Measurand#INLET_RUNNING}, {@link Measurand#RATIO}, {@link Measurand#FILTER_LOSS},
 *     {@link Measurand#WANDER}, {@link Measurand#INLET_WANDER}, {@link Measurand#INLET_RIPPLE} and
 *     {@link Measurand#SWAY} under demand as far as that is told apart; {@link
 *     Measurand#INLET_BREAKS} and {@link Measurand#BOOSTED_BREAKS} where there were any
 */
public record Run(
        long startedAtMicros, long endedAtMicros, boolean over, Map<Measurand, Figure> figures) {

    private static final List<Measurand> MEASURANDS =
            List.of(
                    Measurand.TOP,
                    Measurand.LOADED,
                    Measurand.UNLOADED,
                    Measurand.INLET_RUNNING,
                    Measurand.RATIO,
                    Measurand.FILTER_LOSS);

    public Run {
        EnumMap<Measurand, Figure> copy = new EnumMap<>(Measurand.class);
        figures.forEach((measurand, figure) -> copy.put(measurand, requireNonNull(figure)));
        figures = Collections.unmodifiableMap(copy);
    }

    /** What a start was measured to reach, of the numbers that a run has. */
    public static Map<Measurand, Figure> of(Startup start) {
        EnumMap<Measurand, Figure> reached = new EnumMap<>(Measurand.class);
        for (Measurand measurand : MEASURANDS) {
            reached.put(measurand, start.figure(measurand));
        }
        return reached;
    }

    public Figure figure(Measurand measurand) {
        return figures.getOrDefault(measurand, Figure.absent(Absence.NOT_LOOKED_AT));
    }

    /**
     * The mean over the run, or of a short one what its start was measured to reach.
     *
     * @param reached as {@link #of} says; nothing where the start was not seen
     */
    public Figure figure(Measurand measurand, Map<Measurand, Figure> reached) {
        Figure mean = figure(measurand);
        return mean.isPresent() ? mean : reached.getOrDefault(measurand, mean);
    }

    /**
     * Likewise the level with the jet on, or where on and off could not be told apart, the level.
     */
    public Figure loadedPsi(Map<Measurand, Figure> reached) {
        Figure loaded = figure(Measurand.LOADED, reached);
        return loaded.isPresent() ? loaded : figure(Measurand.TOP, reached);
    }

    /** Likewise the level with the jet off; without one what the gauge showed over all the run. */
    public Figure highestPsi(Map<Measurand, Figure> reached) {
        Figure unloaded = figure(Measurand.UNLOADED);
        Figure whole = unloaded.isPresent() ? unloaded : figure(Measurand.TOP);
        return whole.isPresent() ? whole : figure(Measurand.UNLOADED, reached);
    }
}
