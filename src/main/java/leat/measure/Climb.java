package leat.measure;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import leat.measure.fit.RiseSamples;

/**
 * One start of the booster laid out for measuring, with times in seconds from its start. Reads
 * every figure of the start off the two curves.
 */
final class Climb {

    private static final double RIPPLE_SECONDS = 6;
    private static final double DIP_MEAN_SECONDS = 0.3;
    private static final double SETTLED_FOR_SECONDS = 0.5;

    private static final String TOO_FEW = "too few readings";

    private final Stretch curve;
    private final Stretch supply;
    private final RiseSamples samples;
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
     * @param samples the readings of {@code curve} for fits
     * @param endSeconds end of the seconds whose median is the top
     * @param commanded whether a run signal gave the start
     */
    Climb(
            Stretch curve,
            Stretch supply,
            RiseSamples samples,
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
        ClimbLevels between = ClimbLevels.of(curve, noise, foot, zero, end, end);
        StateLevels levels = between.states();
        Measured base = between.base();
        Measured top = between.top();
        put(Measurand.BASE, base);
        put(Measurand.TOP, top);
        putInlet(inletAtEnd());
        put(Measurand.RATIO, ratio());
        put(Measurand.DEAD, dead());
        put(Measurand.UNLOADED, levels.unloaded());
        put(Measurand.DROP, levels.dropPsi());
        putStrokes(levels);
        List<String> remarks =
                base.isPresent() && top.isPresent()
                        ? rise(base, top, levels)
                        : absent(base.isPresent() ? top : base);
        return new Startup(startedAtMicros, atMicros, whole(TOO_FEW), remarks, true);
    }

    /**
     * What can be said of a start that reached no level.
     *
     * @param because why there is no top
     */
    Startup notRisen(long startedAtMicros, long atMicros, String because) {
        put(Measurand.BASE, ClimbLevels.of(curve, noise, foot, zero, end, zero).base());
        putInlet(end >= ClimbLevels.TOP_SECONDS ? inletAtEnd() : Measured.absent(because));
        put(Measurand.DEAD, dead());
        return new Startup(
                startedAtMicros, atMicros, whole(because), List.of(ClimbFits.none(because)), false);
    }

    private void put(Measurand measurand, Measured measured) {
        figures.put(measurand, measured.figure());
    }

    /** Every measurand; those that nothing was said of are absent. */
    private Map<Measurand, Figure> whole(String because) {
        for (Measurand measurand : Measurand.values()) {
            figures.putIfAbsent(measurand, Figure.absent(because));
        }
        return figures;
    }

    private List<String> absent(Measured level) {
        whole(level.absentBecause());
        return List.of(ClimbFits.none(level.absentBecause()));
    }

    private Measured inletAtEnd() {
        return ClimbLevels.median(
                supply, end - ClimbLevels.TOP_SECONDS, end, supplyNoise, ClimbLevels.NO_TOP);
    }

    private void putInlet(Measured running) {
        Measured rest =
                ClimbLevels.median(
                        supply,
                        zero - ClimbLevels.BASE_SECONDS,
                        zero - ClimbLevels.JUST_BEFORE,
                        supplyNoise,
                        ClimbLevels.NOTHING_BEFORE);
        put(Measurand.INLET_REST, rest);
        put(Measurand.INLET_RUNNING, running);
        put(Measurand.INLET_SAG, rest.less(running));
    }

    private Measured ratio() {
        Figure running = figures.get(Measurand.INLET_RUNNING);
        Figure top = figures.get(Measurand.TOP);
        if (!top.isPresent() || !running.isPresent()) {
            return Measured.absent((top.isPresent() ? running : top).absentBecause());
        }
        if (running.get() < settings.minInletPsi()) {
            return Measured.absent("the inlet pressure is too low to divide by");
        }
        Figure ratio = top.over(running);
        return Measured.of(ratio.get(), ratio.uncertainty().orElse(0));
    }

    private Measured dead() {
        if (!commanded) {
            return Measured.absent("no run signal is wired");
        }
        if (foot.departed() < 0) {
            return Measured.absent("the pressure did not leave its base");
        }
        return foot.movedSecond() < 0
                ? Measured.absent("the pressure moved before the run signal")
                : Measured.of(foot.movedSecond(), foot.doubtSeconds());
    }

    private void putStrokes(StateLevels levels) {
        put(Measurand.RIPPLE, levels.ripple().sdPsi());
        put(Measurand.RIPPLE_RATE, levels.ripple().frequencyHz());
        double from = Math.max(end - RIPPLE_SECONDS, foot.movedSecond());
        boolean begun = levels.ripple().isPresent();
        put(
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
    private List<String> rise(Measured base, Measured top, StateLevels levels) {
        int from = Math.max(0, foot.departed());
        Crossings climb = Crossings.of(curve, from, base, top, noise);
        Measured last = levels.unloaded().isPresent() ? levels.unloaded() : top;
        double quiet = levels.strokesFromSecond();
        put(Measurand.RISE, climb.durationSeconds());
        put(Measurand.START_TO_90, sinceStart(climb.t90()));
        Crossings boost = fromInlet(top, from);
        Ramp ramp = Ramp.of(curve, boost, noise);
        put(Measurand.RISE_FROM_INLET, boost.durationSeconds());
        put(Measurand.BOOST_RATE, ramp.psiPerSecond());
        put(Measurand.TIME_TO_DOUBLE, timeToDouble(climb));
        put(
                Measurand.TIME_TO_LEVEL,
                FixedThreshold.after10(curve, from, climb, base, settings.fixedLevelPsi(), noise));
        Aberrations beyond = Aberrations.of(curve, climb, base, last, noise, quiet);
        put(Measurand.OVERSHOOT, beyond.overshootPercent());
        put(Measurand.UNDERSHOOT, beyond.undershootPercent());
        put(
                Measurand.SETTLING,
                Settling.of(curve, climb, base, last, noise, quiet, SETTLED_FOR_SECONDS));
        put(Measurand.INLET_DIP, inletDip(climb));
        return new ClimbFits(samples, zero, climb, ramp.shape(), quiet).into(figures);
    }

    private Measured sinceStart(Measured instant) {
        if (!instant.isPresent()) {
            return instant;
        }
        double doubt = commanded && zero == 0 ? 0 : foot.doubtSeconds();
        return Measured.of(instant.get() - zero, Math.hypot(instant.uncertainty95(), doubt));
    }

    private Crossings fromInlet(Measured top, int from) {
        Measured running = Measured.of(figures.get(Measurand.INLET_RUNNING));
        return Crossings.of(curve, from, running, top, noise);
    }

    private Measured timeToDouble(Crossings climb) {
        Figure running = figures.get(Measurand.INLET_RUNNING);
        if (!running.isPresent()) {
            return Measured.absent(running.absentBecause());
        }
        if (running.get() < settings.minInletPsi()) {
            return Measured.absent("the inlet pressure is too low to double");
        }
        int from = Math.max(0, foot.departed());
        Measured twice = Measured.of(2 * running.get(), 2 * running.uncertainty().orElse(0));
        if (curve.firstAtOrAbove(twice.get(), Math.max(1, from)) < 1) {
            return Measured.absent("twice the inlet pressure was not reached");
        }
        return sinceStart(FixedThreshold.instant(curve, from, climb, twice, noise));
    }

    private Measured inletDip(Crossings climb) {
        Figure rest = figures.get(Measurand.INLET_REST);
        if (!climb.t90().isPresent() || !rest.isPresent()) {
            return Measured.absent(
                    rest.isPresent() ? climb.t90().absentBecause() : rest.absentBecause());
        }
        Stretch rising = supply.part(zero, climb.t90().get());
        return Measured.of(rest)
                .less(Extreme.lowest(rising, supplyNoise, DIP_MEAN_SECONDS).highest());
    }
}
