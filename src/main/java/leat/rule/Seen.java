package leat.rule;

import java.util.Map;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.measure.absence.Absence;

/**
 * What was measured on one occasion, to be compared with what is usual for the machine. Immutable.
 *
 * @param of what kind of occasion
 * @param fromMicros when it began, microseconds UTC
 * @param atMicros when it was measured, microseconds UTC
 * @param over false of a run that lasts: it is not yet one run more
 * @param figures the numbers of it
 * @param inletPsi what the inlet gauge read then
 * @param boostedPsi what the boosted gauge read then
 */
record Seen(
        Of of,
        long fromMicros,
        long atMicros,
        boolean over,
        Map<Measurand, Figure> figures,
        Figure inletPsi,
        Figure boostedPsi) {

    /** Each is counted for itself: a run whose level sinks later may have begun as usual. */
    enum Of {
        START,
        RUN,
        REST
    }

    static Seen of(Startup start) {
        return new Seen(
                Of.START,
                start.startedAtMicros(),
                start.measuredAtMicros(),
                true,
                start.figures(),
                start.inletRunningPsi(),
                start.topPsi());
    }

    static Seen of(Run run) {
        Figure loaded = run.figure(Measurand.LOADED);
        return new Seen(
                Of.RUN,
                run.startedAtMicros(),
                run.endedAtMicros(),
                run.over(),
                run.figures(),
                run.figure(Measurand.INLET_RUNNING),
                loaded.isPresent() ? loaded : run.figure(Measurand.UNLOADED));
    }

    static Seen of(RestSpell rest) {
        return new Seen(
                Of.REST,
                rest.stoppedAtMicros(),
                rest.measuredAtMicros(),
                true,
                Map.of(Measurand.FALL, rest.fallSeconds()),
                rest.inletPsi(),
                rest.boostedPsi());
    }

    Figure figure(Measurand measurand) {
        return figures.getOrDefault(measurand, Figure.absent(Absence.NOT_MEASURED_THEN));
    }

    boolean hasInletGauge() {
        return has(Measurand.UNREST)
                || figure(Measurand.UNREST).absentBecause() != Absence.NO_INLET_GAUGE;
    }

    boolean has(Measurand measurand) {
        return figure(measurand).isPresent();
    }
}
