package leat.measure;

import leat.signal.Gauge;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/**
 * Keeps the pressures of the last seconds, and of a start until it has been measured.
 * Thread-confined.
 */
public final class StartupMeter {

    /** How much before a start is kept: the base, and a fill that runs ahead of the run signal. */
    private static final long BEFORE_MICROS = 8_000_000;

    private static final long RECENT_MICROS = 5_000_000;
    private static final double BASE_SECONDS = 5;
    private static final double LEVEL_SECONDS = 0.5;
    private static final double MOVING_PSI = 1;
    private static final double TOP_SECONDS = 3;
    private static final double DEPARTED_PSI = 3;

    private final double minInletPsi;
    private final Curve inlet = new Curve();
    private final Curve boosted = new Curve();
    private long startMicros = Gauge.NEVER;
    private boolean commanded;
    private double basePsi;

    /**
     * @param minInletPsi no ratio is measured below this inlet pressure
     */
    public StartupMeter(double minInletPsi) {
        this.minInletPsi = minInletPsi;
    }

    public void inletRead(long atMicros, double psi) {
        inlet.add(atMicros, psi);
        if (!isOpen()) {
            inlet.dropBefore(atMicros - BEFORE_MICROS);
        }
    }

    public void boostedRead(long atMicros, double psi) {
        boosted.add(atMicros, psi);
        if (!isOpen()) {
            boosted.dropBefore(atMicros - BEFORE_MICROS);
        }
    }

    /**
     * The booster was started.
     *
     * @param atMicros the run signal's time, or the first departure from the base level
     * @param byRunSignal whether a run signal said so
     */
    public void open(long atMicros, boolean byRunSignal) {
        startMicros = atMicros;
        commanded = byRunSignal;
        double sum = 0;
        int count = 0;
        for (int i = boosted.indexFrom(atMicros - RECENT_MICROS);
                i < boosted.size() && boosted.at(i) < atMicros;
                i++) {
            sum += boosted.psi(i);
            count++;
        }
        basePsi = count == 0 ? 0 : sum / count;
    }

    /** Mean boosted pressure of the seconds before the open start, for a first look. */
    public double basePsi() {
        return basePsi;
    }

    /** True from a start until it is measured or dropped. */
    public boolean isOpen() {
        return startMicros != Gauge.NEVER;
    }

    public long startMicros() {
        return startMicros;
    }

    /** Lets the open start go without measuring it. */
    public void drop() {
        startMicros = Gauge.NEVER;
    }

    /** Forgets every sample: event time has jumped. */
    public void clear() {
        drop();
        inlet.clear();
        boosted.clear();
    }

    /**
     * Measures the open start and closes it.
     *
     * @param atMicros now
     * @param levelMicros end of the seconds whose median is the top
     * @param risen whether the pressure has reached a level
     */
    public Startup measure(long atMicros, long levelMicros, boolean risen) {
        Stretch curve = Stretch.of(boosted, startMicros - BEFORE_MICROS, levelMicros, startMicros);
        Stretch supply = Stretch.of(inlet, startMicros - BEFORE_MICROS, levelMicros, startMicros);
        double end = (levelMicros - startMicros) / 1e6;
        int departed = departure(curve);
        double moved = departed < 0 ? 0 : curve.second(departed);
        double zero = Math.min(0, moved);
        Figure base = base(curve, zero);
        Figure inletRest =
                supply.median(zero - BASE_SECONDS, zero - 1e-6, "no reading before the start");
        Figure inletRunning = supply.median(end - TOP_SECONDS, end, "no inlet reading at the top");
        Figure top =
                risen
                        ? curve.median(end - TOP_SECONDS, end, "no reading at the top")
                        : Figure.absent("the pressure did not rise to a level");
        Startup startup =
                assemble(
                        atMicros,
                        curve,
                        zero,
                        moved,
                        departed,
                        base,
                        top,
                        inletRest,
                        inletRunning,
                        risen);
        drop();
        return startup;
    }

    private Startup assemble(
            long atMicros,
            Stretch curve,
            double zero,
            double moved,
            int departed,
            Figure base,
            Figure top,
            Figure inletRest,
            Figure inletRunning,
            boolean risen) {
        Transition rise = transition(curve, departed, base, top);
        Transition boost = transition(curve, departed, inletRunning, top);
        Figure startTo90 =
                rise.reach90Second().isPresent()
                        ? Figure.of(rise.reach90Second().get() - zero)
                        : rise.reach90Second();
        return new Startup(
                startMicros + Math.round(zero * 1e6),
                atMicros,
                base,
                top,
                inletRest,
                inletRunning,
                dead(moved, departed),
                rise.durationSeconds(),
                boost.durationSeconds(),
                startTo90,
                overshoot(curve, rise, base, top),
                ratio(top, inletRunning),
                timeToDouble(curve, departed, zero, inletRunning),
                risen);
    }

    private static Transition transition(Stretch curve, int departed, Figure low, Figure high) {
        for (Figure figure : new Figure[] {low, high}) {
            if (!figure.isPresent()) {
                Figure why = Figure.absent(figure.absentBecause());
                return new Transition(why, why, 0);
            }
        }
        return Transition.of(curve, Math.max(0, departed), low.get(), high.get());
    }

    /**
     * Index of the first of two readings running that lie above the lowest level before the start;
     * -1 for none. Counted from the lowest reading on, so that a pressure still falling from an
     * earlier run is not taken for a climb.
     */
    private static int departure(Stretch curve) {
        int lowest = curve.lowest(0);
        if (lowest < 0) {
            return -1;
        }
        double around = curve.second(lowest);
        Figure level =
                curve.median(around - LEVEL_SECONDS, Math.min(0, around + LEVEL_SECONDS), "none");
        double above = level.orElse(curve.psi(lowest)) + DEPARTED_PSI;
        for (int i = lowest; i + 1 < curve.size(); i++) {
            if (curve.psi(i) > above && curve.psi(i + 1) > above) {
                return i;
            }
        }
        return -1;
    }

    /**
     * Level before the departure: the median of five seconds of rest, or of the last moment of a
     * pressure that was still moving.
     */
    private static Figure base(Stretch curve, double zero) {
        String none = "no reading before the start";
        double end = zero - 1e-6;
        Figure early = curve.median(zero - BASE_SECONDS, zero - BASE_SECONDS / 2, none);
        Figure late = curve.median(zero - BASE_SECONDS / 2, end, none);
        boolean moves =
                early.isPresent()
                        && late.isPresent()
                        && Math.abs(early.get() - late.get()) > MOVING_PSI;
        return curve.median(zero - (moves ? LEVEL_SECONDS : BASE_SECONDS), end, none);
    }

    private Figure dead(double moved, int departed) {
        if (!commanded) {
            return Figure.absent("no run signal is wired");
        }
        if (departed < 0) {
            return Figure.absent("the pressure did not leave its base");
        }
        return moved < 0
                ? Figure.absent("the pressure moved before the run signal")
                : Figure.of(moved);
    }

    private static Figure overshoot(Stretch curve, Transition rise, Figure base, Figure top) {
        if (!rise.reach90Second().isPresent()) {
            return rise.reach90Second();
        }
        double over = curve.highest(rise.top90Index()) - top.get();
        return Figure.of(Math.max(0, over) / (top.get() - base.get()) * 100);
    }

    private Figure ratio(Figure top, Figure inletRunning) {
        if (!top.isPresent()) {
            return top;
        }
        if (!inletRunning.isPresent()) {
            return inletRunning;
        }
        return inletRunning.get() < minInletPsi
                ? Figure.absent("the inlet pressure is too low to divide by")
                : Figure.of(top.get() / inletRunning.get());
    }

    private Figure timeToDouble(Stretch curve, int departed, double zero, Figure inletRunning) {
        if (!inletRunning.isPresent()) {
            return inletRunning;
        }
        if (inletRunning.get() < minInletPsi) {
            return Figure.absent("the inlet pressure is too low to double");
        }
        double twice = 2 * inletRunning.get();
        int index = curve.firstAtOrAbove(twice, Math.max(0, departed));
        if (index < 1) {
            return Figure.absent("twice the inlet pressure was not reached");
        }
        return Figure.of(curve.crossing(index - 1, twice) - zero);
    }

    public void save(StateWriter out) {
        inlet.save(out);
        boosted.save(out);
        out.putLong(startMicros);
        out.putBoolean(commanded);
        out.putDouble(basePsi);
    }

    public void load(StateReader in) {
        inlet.load(in);
        boosted.load(in);
        startMicros = in.getLong();
        commanded = in.getBoolean();
        basePsi = in.getDouble();
    }
}
