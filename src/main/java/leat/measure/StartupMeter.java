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
    private long fromMicros = Gauge.NEVER;
    private boolean commanded;
    private boolean restarted;

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
     * @param stoppedMicros when the run before it was stopped: where the booster has come back
     *     within seconds, this climb begins on what the pressure has fallen to since
     */
    public void open(long atMicros, boolean byRunSignal, long stoppedMicros) {
        startMicros = atMicros;
        long earliest = atMicros - BEFORE_MICROS;
        restarted = stoppedMicros > earliest;
        fromMicros = restarted ? crestMicros(stoppedMicros, atMicros) : earliest;
        commanded = byRunSignal;
    }

    /** When the pressure was highest, which climbs on for a moment after a stop. */
    private long crestMicros(long from, long to) {
        long crest = from;
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = boosted.indexFrom(from); i < boosted.size() && boosted.at(i) <= to; i++) {
            if (boosted.psi(i) > highest) {
                highest = boosted.psi(i);
                crest = boosted.at(i);
            }
        }
        return crest;
    }

    /** True from a start until it is measured or dropped. */
    public boolean isOpen() {
        return startMicros != Gauge.NEVER;
    }

    public long startMicros() {
        return startMicros;
    }

    /** Whether the last start came within seconds of a stop, on what that had left of pressure. */
    public boolean isRestart() {
        return restarted;
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
     * @param levelMicros end of what is looked at
     */
    public Startup measure(long atMicros, long levelMicros) {
        Climb climb = climb(levelMicros);
        Startup startup = climb.risen(startedAtMicros(climb), atMicros);
        Stretch sinceStart = Stretch.of(boosted, startMicros, levelMicros, startMicros);
        drop();
        return seen(commanded ? startup : Interruption.heeded(startup, sinceStart));
    }

    /**
     * Closes the open start, which has reached no level.
     *
     * @param atMicros now, the end of what is looked at
     * @param because why there is no top
     */
    public Startup giveUp(long atMicros, Absence because) {
        Startup startup = soFar(atMicros, because);
        drop();
        return startup;
    }

    private Startup seen(Startup startup) {
        return settings.hasInlet() ? startup : startup.withoutInlet();
    }

    /** The same, and the start stays open. */
    public Startup soFar(long atMicros, Absence because) {
        Climb climb = climb(atMicros);
        return seen(climb.notRisen(startedAtMicros(climb), atMicros, because));
    }

    /**
     * When the pressure of the open start began to fall, whose stop was seen to have come by then.
     */
    public long kneeMicros(long stoppedMicros) {
        Stretch climbed = Stretch.of(boosted, startMicros, stoppedMicros, stoppedMicros);
        return stoppedMicros + Math.round(Knee.of(climbed) * 1e6);
    }

    private Climb climb(long endMicros) {
        return new Climb(
                Stretch.of(boosted, fromMicros, endMicros, startMicros),
                Stretch.of(inlet, fromMicros, endMicros, startMicros),
                () -> FittedRise.samples(boosted, fromMicros, endMicros, startMicros),
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
        fromMicros = state.keep("fromMicros", fromMicros);
        commanded = state.keep("commanded", commanded);
        restarted = state.keep("restarted", restarted);
    }
}
