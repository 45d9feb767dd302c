package leat.rule;

import java.util.Arrays;
import leat.signal.Gauge;
import leat.wire.State;

/**
 * The share of the last minute's readings of a pressure channel that is lost: BAD ones, and the
 * time without any beyond what the channel itself lets expect. How often it speaks is not
 * configured but learned from its last readings. Thread-confined.
 *
 * <p>A gap counts when it is long against the channel's usual interval and is followed by readings
 * at that interval. One long gap after the other is a sensor that speaks more slowly now, such as
 * one that publishes on change. A gap as long as {@code signal.missing} does not count: it is told
 * as what it is.
 */
final class LostReadings {

    private static final int KNOWN = 32;

    /** With fewer the usual interval is not known. */
    private static final int LEAST_KNOWN = 12;

    /** More long gaps running are a slower sensor. */
    private static final int MOST_RUNNING = 3;

    /** A channel whose second quarter of intervals lies so near together keeps a beat. */
    private static final double REGULAR = 1.25;

    /** One reading left out of a beat makes an interval of two. */
    private static final double LONG_OF_REGULAR = 1.5;

    /** A sensor that jitters or publishes on change: own choice, as of exponential intervals. */
    private static final double LONG_OF_IRREGULAR = 4;

    /** Few intervals that hold so much of the time are pauses between bunches. */
    private static final int FEW = 3;

    private static final double MOST_OF_TIME = 0.75;

    /** A sensor that was slower at rest is still known to be after a run of an hour. */
    private static final double FORGOTTEN_A_SECOND = 1 / 3600.0;

    private final long missingMicros;
    private final LostMinute running = new LostMinute();
    private final LostMinute resting = new LostMinute();
    private final long[] intervals = new long[KNOWN];
    private int known;
    private long usualMicros;
    private double slowestMicros;
    private long longMicros = Long.MAX_VALUE;
    private long latestMicros = Gauge.NEVER;
    private boolean afterBad;
    private long badMicros;
    private long gapsMicros;
    private int gaps;
    private long nowMicros;

    LostReadings(Limits limits) {
        missingMicros = limits.micros(Limit.SIGNAL_MISSING);
    }

    /** A reading came, BAD or usable. */
    void read(long atMicros, boolean usable) {
        if (latestMicros != Gauge.NEVER) {
            long interval = atMicros - latestMicros;
            if (afterBad || !usable) {
                passedBad(interval, usable);
            } else {
                passed(interval);
            }
            learn(interval);
        }
        afterBad = !usable;
        latestMicros = atMicros;
    }

    private void passed(long interval) {
        if (interval > longMicros) {
            gaps++;
            gapsMicros += interval < missingMicros ? interval - usualMicros : 0;
            return;
        }
        nowMicros += gaps <= MOST_RUNNING ? gapsMicros : 0;
        gaps = 0;
        gapsMicros = 0;
    }

    private void passedBad(long interval, boolean usable) {
        badMicros += interval;
        if (usable) {
            nowMicros += badMicros < missingMicros ? Math.max(0, badMicros - usualMicros) : 0;
            badMicros = 0;
        }
    }

    private void learn(long interval) {
        if (interval >= missingMicros) {
            return;
        }
        if (known == KNOWN) {
            System.arraycopy(intervals, 1, intervals, 0, KNOWN - 1);
            known--;
        }
        intervals[known++] = interval;
    }

    /**
     * A second has passed.
     *
     * @param runs whether the machine runs: a loop may be loose only while it shakes
     */
    void tick(boolean runs) {
        if (known >= LEAST_KNOWN) {
            long[] sorted = Arrays.copyOf(intervals, known);
            Arrays.sort(sorted);
            expect(sorted);
        }
        (runs ? running : resting).add(nowMicros);
        nowMicros = 0;
    }

    private void expect(long[] sorted) {
        long low = sorted[sorted.length / 4];
        usualMicros = sorted[(sorted.length - 1) / 2];
        boolean beats = usualMicros <= REGULAR * low;
        long slow = beats ? usualMicros : sorted[3 * sorted.length / 4];
        if (comesInBunches(sorted)) {
            slow = sorted[sorted.length - FEW];
        }
        slowestMicros = Math.max(slow, slowestMicros * (1 - FORGOTTEN_A_SECOND));
        double factor = slowestMicros <= REGULAR * low ? LONG_OF_REGULAR : LONG_OF_IRREGULAR;
        longMicros = Math.round(factor * slowestMicros);
    }

    /** Messages that are held up on their way come at once, between pauses that are alike. */
    private static boolean comesInBunches(long[] sorted) {
        long few = 0;
        for (int i = sorted.length - FEW; i < sorted.length; i++) {
            few += sorted[i];
        }
        return few > MOST_OF_TIME * Arrays.stream(sorted).sum()
                && sorted[sorted.length - 1] <= REGULAR * sorted[sorted.length - FEW];
    }

    /** Of the readings of the last minute of running or of rest, whichever lost more; 0 to 1. */
    double share() {
        return Math.max(running.share(), resting.share());
    }

    /** Nobody was listening, or event time has jumped. How often the channel speaks is known. */
    void forget() {
        running.clear();
        resting.clear();
        latestMicros = Gauge.NEVER;
        afterBad = false;
        badMicros = 0;
        gapsMicros = 0;
        gaps = 0;
        nowMicros = 0;
    }

    void keep(State state) {
        state.part("running", running::keep);
        state.part("resting", resting::keep);
        long[] kept = state.keep("intervals", Arrays.copyOf(intervals, known));
        if (kept.length > KNOWN) {
            throw new IllegalArgumentException("state is damaged: " + kept.length + " intervals");
        }
        known = kept.length;
        System.arraycopy(kept, 0, intervals, 0, known);
        usualMicros = state.keep("usualMicros", usualMicros);
        slowestMicros = state.keep("slowestMicros", slowestMicros);
        longMicros = state.keep("longMicros", longMicros);
        latestMicros = state.keep("latestMicros", latestMicros);
        afterBad = state.keep("afterBad", afterBad);
        badMicros = state.keep("badMicros", badMicros);
        gapsMicros = state.keep("gapsMicros", gapsMicros);
        gaps = state.keep("gaps", gaps);
        nowMicros = state.keep("nowMicros", nowMicros);
    }
}
