package leat.signal;

import leat.wire.State;

/**
 * What one channel shows: its latest value, its short means, and whether it can be trusted. Fed
 * with readings in time order. Thread-confined.
 */
public final class Gauge {

    /** Before any time. */
    public static final long NEVER = Long.MIN_VALUE / 4;

    private static final long SECOND = 1_000_000;

    private final Channel channel;
    private final SensorClock clock = new SensorClock();
    private final TrailingMean second = new TrailingMean(SECOND);
    private final TrailingMean fiveSeconds = new TrailingMean(5 * SECOND);
    private long latestMicros = NEVER;
    private long usableMicros = NEVER;
    private double latest;
    private Quality quality = Quality.GOOD;
    private long badSinceMicros = NEVER;
    private long badMicros = NEVER;
    private Quality badQuality = Quality.GOOD;
    private boolean lost;
    private long lostSinceMicros = NEVER;
    private String lostReason = "";

    public Gauge(Channel channel) {
        this.channel = channel;
    }

    public Channel channel() {
        return channel;
    }

    /** What the sensor's own clock is like. */
    public SensorClock clock() {
        return clock;
    }

    /** Takes a reading that is later than the one before it. */
    public void show(Reading reading) {
        boolean wasUsable = quality.isUsable();
        latestMicros = reading.atMicros();
        quality = reading.quality();
        lost = false;
        if (!quality.isUsable()) {
            if (wasUsable && reading.atMicros() - badMicros > SECOND) {
                badSinceMicros = reading.atMicros();
            }
            badMicros = reading.atMicros();
            badQuality = quality;
            return;
        }
        usableMicros = reading.atMicros();
        latest = reading.value();
        if (channel.isPressure()) {
            second.add(reading.atMicros(), latest);
            fiveSeconds.add(reading.atMicros(), latest);
        }
    }

    public void lose(SourceLost loss) {
        if (!lost) {
            lostSinceMicros = loss.atMicros();
        }
        lost = true;
        lostReason = loss.reason();
        usableMicros = NEVER;
        quality = Quality.GOOD;
        badMicros = NEVER;
    }

    public void comeBack() {
        lost = false;
    }

    /** Lets the means forget what is too old. */
    public void pass(long nowMicros) {
        second.trim(nowMicros);
        fiveSeconds.trim(nowMicros);
    }

    /**
     * Forgets what it has read: event time has jumped. A contact stays as it is, for it may be told
     * only when it changes.
     */
    public void forget(long nowMicros) {
        clock.forget();
        second.clear();
        fiveSeconds.clear();
        latestMicros = NEVER;
        usableMicros = channel.isPressure() || usableMicros == NEVER ? NEVER : nowMicros;
        badSinceMicros = nowMicros;
        badMicros = NEVER;
        if (lost) {
            lostSinceMicros = nowMicros;
        }
    }

    /** True when a usable reading came within the last {@code withinMicros}. */
    public boolean isFresh(long nowMicros, long withinMicros) {
        return !lost && usableMicros != NEVER && nowMicros - usableMicros <= withinMicros;
    }

    /** True when there is a usable latest value that has not been lost since; for contacts. */
    public boolean isKnown() {
        return !lost && usableMicros != NEVER && quality.isUsable();
    }

    public boolean isLost() {
        return lost;
    }

    public long lostSinceMicros() {
        return lostSinceMicros;
    }

    public String lostReason() {
        return lostReason;
    }

    /** Quality of the latest reading. */
    public Quality quality() {
        return quality;
    }

    /**
     * Since when readings have been BAD, with never a second between two of them in which all were
     * usable; {@link #NEVER} when it is not so now.
     */
    public long badSinceMicros(long nowMicros) {
        boolean isBad = !quality.isUsable() || nowMicros - badMicros <= SECOND;
        return isBad ? badSinceMicros : NEVER;
    }

    /** Why the latest BAD reading was BAD, in plain words. */
    public Quality badQuality() {
        return badQuality;
    }

    /** Time of the latest reading, usable or not; {@link #NEVER} before the first. */
    public long latestMicros() {
        return latestMicros;
    }

    /** Time of the latest usable reading; {@link #NEVER} before the first. */
    public long usableMicros() {
        return usableMicros;
    }

    /** The latest usable value; 0 before the first. */
    public double latest() {
        return latest;
    }

    /** Mean of the last second, or the latest value where readings come more slowly than that. */
    public double secondMean() {
        return second.isEmpty() ? latest : second.mean();
    }

    /** Mean of the last five seconds, or the latest value where readings come more slowly. */
    public double fiveSecondMean() {
        return fiveSeconds.isEmpty() ? latest : fiveSeconds.mean();
    }

    public void keep(State state) {
        state.part("clock", clock::keep);
        state.part("second", second::keep);
        state.part("fiveSeconds", fiveSeconds::keep);
        latestMicros = state.keep("latestMicros", latestMicros);
        usableMicros = state.keep("usableMicros", usableMicros);
        latest = state.keep("latest", latest);
        quality = state.keep("quality", quality);
        badSinceMicros = state.keep("badSinceMicros", badSinceMicros);
        badMicros = state.keep("badMicros", badMicros);
        badQuality = state.keep("badQuality", badQuality);
        lost = state.keep("lost", lost);
        lostSinceMicros = state.keep("lostSinceMicros", lostSinceMicros);
        lostReason = state.keep("lostReason", lostReason);
    }
}
