package leat.diagnose;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;

/**
 * An invented observation: as a sound machine of 42 psi supply and a level of 100 psi gives it, but
 * for what is changed. Immutable.
 */
record SeenStart(
        Map<Measurand, Double> start,
        Map<Measurand, Double> run,
        double restPsi,
        double fallSeconds,
        boolean risen) {

    static SeenStart sound() {
        Map<Measurand, Double> start = new EnumMap<>(Measurand.class);
        start.put(Measurand.BASE, 0.0);
        start.put(Measurand.RISE, 1.5);
        start.put(Measurand.RISE_FROM_INLET, 0.9);
        start.put(Measurand.BOOST_RATE, 55.0);
        start.put(Measurand.START_TO_90, 2.0);
        start.put(Measurand.TIME_TO_LEVEL, 1.3);
        start.put(Measurand.INLET_REST, 45.0);
        start.put(Measurand.INLET_SAG, 3.5);
        start.put(Measurand.INLET_DIP, 20.0);
        start.put(Measurand.TOP, 103.0);
        start.put(Measurand.UNLOADED, 103.0);
        start.put(Measurand.LOADED, 99.0);
        start.put(Measurand.DROP, 4.0);
        start.put(Measurand.PEAK, 105.0);
        start.put(Measurand.PEAK_DROP, 6.0);
        start.put(Measurand.OVERSHOOT, 1.0);
        start.put(Measurand.RIPPLE, 1.6);
        start.put(Measurand.WANDER, 0.4);
        Map<Measurand, Double> run = new EnumMap<>(Measurand.class);
        run.put(Measurand.TOP, 100.0);
        run.put(Measurand.LOADED, 99.0);
        run.put(Measurand.UNLOADED, 103.0);
        run.put(Measurand.INLET_RUNNING, 41.5);
        run.put(Measurand.RATIO, 99 / 41.5);
        run.put(Measurand.WANDER, 0.6);
        run.put(Measurand.FILTER_LOSS, 1.8);
        return new SeenStart(start, run, 0, 3, true);
    }

    SeenStart with(Measurand measurand, double value) {
        Map<Measurand, Double> changed = new EnumMap<>(start);
        changed.put(measurand, value);
        return new SeenStart(changed, run, restPsi, fallSeconds, risen);
    }

    SeenStart without(Measurand measurand) {
        Map<Measurand, Double> changed = new EnumMap<>(start);
        changed.remove(measurand);
        Map<Measurand, Double> less = new EnumMap<>(run);
        less.remove(measurand);
        return new SeenStart(changed, less, restPsi, fallSeconds, risen);
    }

    SeenStart running(Measurand measurand, double value) {
        Map<Measurand, Double> changed = new EnumMap<>(run);
        changed.put(measurand, value);
        return new SeenStart(start, changed, restPsi, fallSeconds, risen);
    }

    /** The level with the jet on and off, at the start and in the run. */
    SeenStart level(double loaded, double unloaded) {
        double inlet = run.get(Measurand.INLET_RUNNING);
        return with(Measurand.TOP, unloaded)
                .with(Measurand.UNLOADED, unloaded)
                .with(Measurand.LOADED, loaded)
                .with(Measurand.DROP, unloaded - loaded)
                .with(Measurand.PEAK, unloaded + 2)
                .with(Measurand.PEAK_DROP, unloaded + 2 - loaded)
                .running(Measurand.LOADED, loaded)
                .running(Measurand.UNLOADED, unloaded)
                .running(Measurand.TOP, loaded + 1)
                .running(Measurand.RATIO, loaded / inlet);
    }

    /** The inlet at rest and while water is drawn. */
    SeenStart inlet(double rest, double running) {
        return with(Measurand.INLET_REST, rest)
                .with(Measurand.INLET_SAG, rest - running)
                .running(Measurand.INLET_RUNNING, running)
                .running(Measurand.RATIO, run.get(Measurand.LOADED) / running);
    }

    SeenStart rest(double psi, double fall) {
        return new SeenStart(start, run, psi, fall, risen);
    }

    SeenStart notRisen() {
        return new SeenStart(start, run, restPsi, fallSeconds, false);
    }

    Observation at(long startedAtMicros) {
        return new Observation(
                startedAtMicros,
                Optional.of(
                        new Startup(
                                startedAtMicros,
                                startedAtMicros + 20_000_000,
                                figures(start),
                                List.of(),
                                risen)),
                Optional.of(
                        new Run(startedAtMicros, startedAtMicros + 60_000_000, true, figures(run))),
                Optional.of(
                        new RestSpell(
                                startedAtMicros + 60_000_000,
                                startedAtMicros + 90_000_000,
                                Figure.of(restPsi),
                                Figure.of(start.get(Measurand.INLET_REST)),
                                Figure.of(fallSeconds),
                                true)),
                List.of());
    }

    private static Map<Measurand, Figure> figures(Map<Measurand, Double> values) {
        Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
        values.forEach((measurand, value) -> figures.put(measurand, Figure.of(value)));
        return figures;
    }

    Observation once() {
        return at(0);
    }
}
