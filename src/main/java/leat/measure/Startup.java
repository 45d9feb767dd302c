package leat.measure;

import static java.util.Objects.requireNonNull;

import java.util.Collection;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import leat.measure.absence.Absence;

/**
 * The numbers of one start of the booster. Immutable.
 *
 * @param startedAtMicros the start command or valve opening where wired, else the first departure
 *     from the base level; microseconds UTC. It identifies the startup within its machine
 * @param measuredAtMicros when it was measured, microseconds UTC
 * @param figures each number or why there is none; what is missing here was not measured by the
 *     leat of that time
 * @param remarks what a person should know of how it was measured
 * @param risen false when no rise to a level was seen in the time allowed
 */
public record Startup(
        long startedAtMicros,
        long measuredAtMicros,
        Map<Measurand, Figure> figures,
        List<ClimbRemark> remarks,
        boolean risen) {

    /** What a gauge before the booster is needed for. */
    private static final Set<Measurand> FROM_INLET =
            EnumSet.of(
                    Measurand.INLET_REST,
                    Measurand.INLET_RUNNING,
                    Measurand.INLET_SAG,
                    Measurand.INLET_DIP,
                    Measurand.RATIO,
                    Measurand.RISE_FROM_INLET,
                    Measurand.BOOST_RATE,
                    Measurand.TIME_TO_DOUBLE,
                    Measurand.UNREST);

    private static final Figure UNKNOWN = Figure.absent(Absence.NOT_MEASURED_THEN);

    public Startup {
        EnumMap<Measurand, Figure> copy = new EnumMap<>(Measurand.class);
        figures.forEach((measurand, figure) -> copy.put(measurand, requireNonNull(figure)));
        figures = Collections.unmodifiableMap(copy);
        remarks = List.copyOf(remarks);
    }

    /** The same start on a machine that has no gauge before the booster. */
    Startup withoutInlet() {
        return without(FROM_INLET, Absence.NO_INLET_GAUGE);
    }

    /** The same start without some numbers. */
    Startup without(Collection<Measurand> absent, Absence because) {
        EnumMap<Measurand, Figure> seen = new EnumMap<>(figures);
        absent.forEach(each -> seen.put(each, Figure.absent(because)));
        return new Startup(startedAtMicros, measuredAtMicros, seen, remarks, risen);
    }

    public Figure figure(Measurand measurand) {
        return figures.getOrDefault(measurand, UNKNOWN);
    }

    /** The same with one more number. */
    public Startup with(Measurand measurand, Figure figure) {
        EnumMap<Measurand, Figure> all = new EnumMap<>(Measurand.class);
        all.putAll(figures);
        all.put(measurand, figure);
        return new Startup(startedAtMicros, measuredAtMicros, all, remarks, risen);
    }

    public Figure basePsi() {
        return figure(Measurand.BASE);
    }

    public Figure topPsi() {
        return figure(Measurand.TOP);
    }

    public Figure inletRunningPsi() {
        return figure(Measurand.INLET_RUNNING);
    }

    public Figure riseSeconds() {
        return figure(Measurand.RISE);
    }

    public Figure riseFromInletSeconds() {
        return figure(Measurand.RISE_FROM_INLET);
    }

    public Figure startTo90Seconds() {
        return figure(Measurand.START_TO_90);
    }

    public Figure ratio() {
        return figure(Measurand.RATIO);
    }
}
