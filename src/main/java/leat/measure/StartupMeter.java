package leat.measure;

import leat.measure.absence.Absence;
import leat.signal.Gauge;
import leat.wire.State;

/**
 * Keeps the pressures of the last seconds, and of a start until it has been measured.
 * Thread-confined.
 */
public final class StartupMeter {

    /** How much before a start is kept: the base, and a fill that runs ahead of the run signal. */
    private static final long BEFORE_MICROS = 8_000_000;

    private static final long LEVEL_MICROS = 1_000_000;

    private final StartupSettings settings;
    private final Curve inlet = new Curve();
    private final Curve boosted = new Curve();
    private long startMicros = Gauge.NEVER;
    private boolean commanded;

    public StartupMeter(StartupSettings settings) {
        this.settings = settings;
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
    }

    /** True from a start until it is measured or dropped. */
    public boolean isOpen() {
        return startMicros != Gauge.NEVER;
    }

    public long startMicros() {
        return startMicros;
    }

    /** The boosted pressure of the last seconds; to be read at once and not kept. */
    public Curve boosted() {
        return boosted;
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
     * Mean boosted pressure of the second before a time; not a number while there is no reading.
     */
    public double levelPsi(long untilMicros) {
        double sum = 0;
        int count = 0;
        for (int i = boosted.indexFrom(untilMicros - LEVEL_MICROS);
                i < boosted.size() && boosted.at(i) <= untilMicros;
                i++) {
            sum += boosted.psi(i);
            count++;
        }
        return sum / count;
    }

    /**
     * Measures the open start, which has reached a level, and closes it.
     *
     * @param atMicros now
     * @param levelMicros end of the seconds whose median is the top
     */
    public Startup measure(long atMicros, long levelMicros) {
        Climb climb = climb(levelMicros);
        Startup startup = climb.risen(startedAtMicros(climb), atMicros);
        drop();
        return seen(startup);
    }

    /**
     * Closes the open start, which has reached no level.
     *
     * @param atMicros now, the end of what is looked at
     * @param because why there is no top
     */
    public Startup giveUp(long atMicros, Absence because) {
        Climb climb = climb(atMicros);
        Startup startup = climb.notRisen(startedAtMicros(climb), atMicros, because);
        drop();
        return seen(startup);
    }

    private Startup seen(Startup startup) {
        return settings.hasInlet() ? startup : startup.withoutInlet();
    }

    private Climb climb(long endMicros) {
        long from = startMicros - BEFORE_MICROS;
        return new Climb(
                Stretch.of(boosted, from, endMicros, startMicros),
                Stretch.of(inlet, from, endMicros, startMicros),
                ClimbFits.samples(boosted, from, endMicros, startMicros),
                (endMicros - startMicros) / 1e6,
                commanded,
                settings);
    }

    private long startedAtMicros(Climb climb) {
        return startMicros + Math.round(climb.zeroSecond() * 1e6);
    }

    public void keep(State state) {
        state.part("inlet", inlet::keep);
        state.part("boosted", boosted::keep);
        startMicros = state.keep("startMicros", startMicros);
        commanded = state.keep("commanded", commanded);
    }
}
