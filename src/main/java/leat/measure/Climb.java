package leat.measure;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import leat.measure.absence.Absence;
import leat.measure.fit.RiseSamples;

/**
 * One start of the booster laid out for measuring, with times in seconds from its start. Reads
 * every figure of the start off the two curves.
 */
final class Climb {

    /** After the stop, of the whole run, and of a gauge that not every machine has. */
    private static final EnumSet<Measurand> OF_OTHER_GAUGES_OR_TIMES =
            EnumSet.of(
                    Measurand.FALL,
                    Measurand.FILTER_LOSS,
                    Measurand.INLET_BREAKS,
                    Measurand.BOOSTED_BREAKS);

    private static final double RIPPLE_SECONDS = 6;
    private static final double DIP_MEAN_SECONDS = 0.3;
    private static final double PEAK_MEAN_SECONDS = 0.3;
    private static final double SETTLED_FOR_SECONDS = 0.5;

    /** A supply may swing by so much with what others draw. */
    private static final double LEAST_ROSE_PSI = 2;

    /** An inlet that is not known better, because it breaks down, gives no ratio. */
    private static final double MOST_INLET_DOUBT = 0.5;

    private final Stretch curve;
    private final Stretch supply;
    private final Supplier<RiseSamples> samples;
    private final double end;
    private final boolean commanded;
    private final StartupSettings settings;
    private final Noise noise;
    private final Noise supplyNoise;
    private final Foot foot;

    /** The start: the run signal, or the departure where that came first. */
    private final double zero;

    private final Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);

    /**
     * @param curve boosted pressure from some seconds before the start to the seconds of the top
     * @param supply inlet pressure of the same time
     * @param samples the readings of {@code curve} for a fit
     * @param endSeconds end of what is looked at
     * @param commanded whether a run signal gave the start
     */
    Climb(
            Stretch curve,
            Stretch supply,
            Supplier<RiseSamples> samples,
            double endSeconds,
            boolean commanded,
            StartupSettings settings) {
        this.curve = curve;
        this.supply = supply;
        this.samples = samples;
        this.end = endSeconds;
        this.commanded = commanded;
        this.settings = settings;
        noise = Noise.of(curve).orElse(Noise.unknown(curve));
        supplyNoise = Noise.of(supply).orElse(Noise.unknown(supply));
        foot = Foot.of(curve, endSeconds);
        zero = Math.min(0, foot.movedSecond());
    }

    /** Seconds from the start that was told to the one that the pressure shows; 0 or negative. */
    double zeroSecond() {
        return zero;
    }

    /** Every figure of a start that reached a level. */
    Startup risen(long startedAtMicros, long atMicros) {
        ClimbLevels between = ClimbLevels.of(curve, noise, foot, zero, end);
        StateLevels levels = between.states();
        Figure base = between.base();
        Figure top = between.top();
        figures.put(Measurand.BASE, base);
        figures.put(Measurand.TOP, top);
        putInlet(inletAtEnd(levels));
        figures.put(Measurand.RATIO, ratio(levels.last()));
        figures.put(Measurand.DEAD, dead());
        figures.put(Measurand.UNLOADED, levels.unloaded());
        figures.put(Measurand.LOADED, levels.loaded());
        figures.put(Measurand.DROP, levels.dropPsi());
        Figure peak = peakPsi();
        figures.put(Measurand.PEAK, peak);
        figures.put(Measurand.PEAK_DROP, peak.less(levels.loaded()));
        putStrokes(levels);
        List<ClimbRemark> remarks = new ArrayList<>();
        if (top.isPresent()) {
            remarks.add(new ClimbRemark(between.topKind()));
        }
        if (base.isPresent() && top.isPresent()) {
            remarks.addAll(rise(base, top, levels));
        } else {
            whole((base.isPresent() ? top : base).absentBecause());
        }
        return new Startup(
                startedAtMicros, atMicros, whole(Absence.TOO_FEW_READINGS), remarks, true);
    }

    /**
     * What can be said of a start that reached no level.
     *
     * @param because why there is no top
     */
    Startup notRisen(long startedAtMicros, long atMicros, Absence because) {
        figures.put(Measurand.BASE, ClimbLevels.of(curve, noise, foot, zero, zero).base());
        figures.put(Measurand.PEAK, peakPsi());
        putInlet(inlet(Math.max(zero, end - LastLevel.MOST_SECONDS), end, 0));
        figures.put(Measurand.DEAD, dead());
        return new Startup(startedAtMicros, atMicros, whole(because), List.of(), false);
    }

    /** Every measurand; those that nothing was said of are absent. */
    private Map<Measurand, Figure> whole(Absence because) {
        for (Measurand measurand : EnumSet.complementOf(OF_OTHER_GAUGES_OR_TIMES)) {
            figures.putIfAbsent(measurand, Figure.absent(because));
        }
        return figures;
    }

    /** Over the seconds over which the boosted level is taken. */
    private Figure inletAtEnd(StateLevels levels) {
        Figure hertz = levels.ripple().frequencyHz();
        boolean inStrokes = levels.loaded().isPresent() && hertz.isPresent();
        return inlet(
                levels.lastFromSecond(), levels.lastToSecond(), inStrokes ? 1 / hertz.get() : 0);
    }

    private Figure inlet(double fromSecond, double toSecond, double strokeSeconds) {
        Stretch last = supply.cleaned(supplyNoise.farthestPsi()).part(fromSecond, toSecond);
        return last.size() == 0
                ? Figure.absent(Absence.NO_READING_AT_TOP)
                : LastLevel.of(last, supplyNoise, strokeSeconds).psi();
    }

    private void putInlet(Figure running) {
        Figure rest =
                ClimbLevels.median(
                        supply,
                        zero - ClimbLevels.BASE_SECONDS,
                        zero - ClimbLevels.JUST_BEFORE,
                        supplyNoise,
                        Absence.NOTHING_BEFORE_START);
        figures.put(Measurand.INLET_REST, rest);
        figures.put(Measurand.INLET_RUNNING, running);
        figures.put(
                Measurand.INLET_SAG,
                inletRose() ? Figure.absent(Absence.INLET_ROSE_WITH_START) : rest.less(running));
    }

    /** The inlet stood lower at rest: its transducer sits behind the valve, or the supply rose. */
    private boolean inletRose() {
        Figure rose = figures.get(Measurand.INLET_RUNNING).less(figures.get(Measurand.INLET_REST));
        return rose.isPresent() && rose.get() > Math.max(LEAST_ROSE_PSI, rose.doubt());
    }

    private Figure ratio(Figure boosted) {
        Figure running = figures.get(Measurand.INLET_RUNNING);
        if (!boosted.isPresent() || !running.isPresent()) {
            return Figure.absent((boosted.isPresent() ? running : boosted).absentBecause());
        }
        boolean mayBeFarLower = running.doubt() > MOST_INLET_DOUBT * running.get();
        if (running.get() < settings.minInletPsi() || mayBeFarLower) {
            return Figure.absent(Absence.INLET_TOO_LOW);
        }
        return boosted.over(running);
    }

    private Figure dead() {
        if (!commanded) {
            return Figure.absent(Absence.NO_RUN_SIGNAL);
        }
        if (foot.departed() < 0) {
            return Figure.absent(Absence.DID_NOT_LEAVE_BASE);
        }
        return foot.movedSecond() < 0
                ? Figure.absent(Absence.MOVED_BEFORE_SIGNAL)
                : Figure.of(foot.movedSecond(), foot.doubtSeconds());
    }

    /** Averaged so that a blow in the line is none. */
    private Figure peakPsi() {
        Stretch climbed = curve.part(foot.movedSecond(), end);
        return Extreme.highest(climbed, noise, PEAK_MEAN_SECONDS).highest();
    }

    private void putStrokes(StateLevels levels) {
        figures.put(Measurand.RIPPLE, levels.ripple().sdPsi());
        figures.put(Measurand.RIPPLE_RATE, levels.ripple().frequencyHz());
        double from = Math.max(end - RIPPLE_SECONDS, foot.movedSecond());
        boolean begun = levels.strokesFromSecond() < end;
        figures.put(
                Measurand.WANDER,
                Wander.of(
                        curve.part(begun ? Math.max(from, levels.strokesFromSecond()) : from, end),
                        noise));
    }

    /**
     * Measures the transition.
     *
     * @return what a person should know of how it was measured
     */
    private List<ClimbRemark> rise(Figure base, Figure top, StateLevels levels) {
        int from = Math.max(0, foot.departed());
        Crossings climb = Crossings.of(curve, from, base, top, noise);
        double quiet = levels.strokesFromSecond();
        figures.put(Measurand.RISE, climb.durationSeconds());
        figures.put(Measurand.UNREST, unrest(climb, quiet));
        figures.put(Measurand.START_TO_90, sinceStart(climb.t90()));
        Crossings boost = fromInlet(top, from);
        figures.put(Measurand.RISE_FROM_INLET, boost.durationSeconds());
        figures.put(Measurand.BOOST_RATE, Ramp.psiPerSecond(curve, boost, noise));
        figures.put(Measurand.TIME_TO_DOUBLE, timeToDouble(climb));
        figures.put(
                Measurand.TIME_TO_LEVEL,
                FixedThreshold.after10(curve, from, climb, base, settings.fixedLevelPsi(), noise));
        Aberrations beyond = Aberrations.of(curve, climb, base, top, noise, quiet);
        figures.put(Measurand.OVERSHOOT, beyond.overshootPercent());
        figures.put(Measurand.UNDERSHOOT, beyond.undershootPercent());
        figures.put(
                Measurand.SETTLING,
                Settling.of(curve, climb, base, top, noise, quiet, SETTLED_FOR_SECONDS));
        figures.put(Measurand.INLET_DIP, inletDip(climb));
        return new FittedRise(samples, zero, climb, quiet).into(figures);
    }

    /** Once it has climbed, for as long again. */
    private Figure unrest(Crossings climb, double strokesFromSecond) {
        Figure risen = climb.t90();
        if (!risen.isPresent()) {
            return risen;
        }
        double settled = risen.get() + climb.durationSeconds().orElse(0);
        double begun = strokesFromSecond < end ? strokesFromSecond : zero;
        double from = Math.max(end - RIPPLE_SECONDS, Math.max(settled, begun));
        return Wander.unrest(curve.part(from, end), supply.part(from, end), noise);
    }

    private Figure sinceStart(Figure instant) {
        if (!instant.isPresent()) {
            return instant;
        }
        double doubt = commanded && zero == 0 ? 0 : foot.doubtSeconds();
        return Figure.of(instant.get() - zero, Math.hypot(instant.doubt(), doubt));
    }

    private Crossings fromInlet(Figure top, int from) {
        return Crossings.of(curve, from, figures.get(Measurand.INLET_RUNNING), top, noise);
    }

    private Figure timeToDouble(Crossings climb) {
        Figure running = figures.get(Measurand.INLET_RUNNING);
        if (!running.isPresent()) {
            return Figure.absent(running.absentBecause());
        }
        if (running.get() < settings.minInletPsi()) {
            return Figure.absent(Absence.INLET_TOO_LOW_TO_DOUBLE);
        }
        int from = Math.max(0, foot.departed());
        Figure twice = Figure.of(2 * running.get(), 2 * running.doubt());
        if (curve.firstAtOrAbove(twice.get(), Math.max(1, from)) < 1) {
            return Figure.absent(Absence.NOT_DOUBLED);
        }
        return sinceStart(FixedThreshold.instant(curve, from, climb, twice, noise));
    }

    private Figure inletDip(Crossings climb) {
        Figure rest = figures.get(Measurand.INLET_REST);
        if (!climb.t90().isPresent() || !rest.isPresent()) {
            return Figure.absent(
                    rest.isPresent() ? climb.t90().absentBecause() : rest.absentBecause());
        }
        if (inletRose()) {
            return Figure.absent(Absence.INLET_ROSE_WITH_START);
        }
        Stretch rising = supply.part(zero, climb.t90().get());
        return rest.less(Extreme.lowest(rising, supplyNoise, DIP_MEAN_SECONDS).highest());
    }
}
