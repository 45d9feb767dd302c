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

    private static final int SECONDS = 60;
    private static final int KNOWN = 32;

    /** With fewer the usual interval is not known. */
    private static final int LEAST_KNOWN = 12;

    /** More long gaps running are a slower sensor. */
    private static final int MOST_RUNNING = 3;

    /** A channel whose middle half of intervals lies so near together keeps a beat. */
    private static final double REGULAR = 1.25;

    /** One reading left out of a beat makes an interval of two. */
    private static final double LONG_OF_REGULAR = 1.5;

    /** A sensor that jitters or publishes on change: own choice, as of exponential intervals. */
    private static final double LONG_OF_IRREGULAR = 4;

    private final long missingMicros;
    private final long[] lostMicros = new long[SECONDS];
    private final long[] intervals = new long[KNOWN];
    private int known;
    private long usualMicros;
    private long longMicros = Long.MAX_VALUE;
    private long sumMicros;
    private long latestMicros = Gauge.NEVER;
    private boolean afterBad;
    private long badMicros;
    private long badSpanMicros;
    private long gapsMicros;
    private int gaps;
    private long nowMicros;

    LostReadings(Limits limits) {
        missingMicros = limits.micros(Limit.SIGNAL_MISSING);
    }

    /** A reading came, BAD or usable. */
    void read(long atMicros, boolean usable) {
        if (latestMicros != Gauge.NEVER) {
            passed(atMicros - latestMicros, usable);
        }
        afterBad = !usable;
        latestMicros = atMicros;
    }

    private void passed(long interval, boolean usable) {
        boolean isLong = interval > longMicros;
        if (isLong) {
            gaps++;
            gapsMicros += interval < missingMicros ? interval - usualMicros : 0;
        } else {
            nowMicros += gaps <= MOST_RUNNING ? gapsMicros : 0;
            gaps = 0;
            gapsMicros = 0;
        }
        if (!isLong || gaps > MOST_RUNNING) {
            learn(interval);
        }
        if (afterBad) {
            badMicros += isLong ? usualMicros : interval;
            badSpanMicros += interval;
        }
        if (usable) {
            nowMicros += badSpanMicros < missingMicros ? badMicros : 0;
            badMicros = 0;
            badSpanMicros = 0;
        }
    }

    private void learn(long interval) {
        if (known == KNOWN) {
            System.arraycopy(intervals, 1, intervals, 0, KNOWN - 1);
            known--;
        }
        intervals[known++] = interval;
    }

    /** A second has passed. */
    void tick() {
        if (known >= LEAST_KNOWN) {
            long[] sorted = Arrays.copyOf(intervals, known);
            Arrays.sort(sorted);
            long low = sorted[known / 4];
            long high = sorted[3 * known / 4];
            usualMicros = sorted[known / 2];
            longMicros =
                    Math.round(
                            high * (high <= REGULAR * low ? LONG_OF_REGULAR : LONG_OF_IRREGULAR));
        }
        sumMicros += nowMicros - lostMicros[0];
        System.arraycopy(lostMicros, 1, lostMicros, 0, SECONDS - 1);
        lostMicros[SECONDS - 1] = nowMicros;
        nowMicros = 0;
    }

    /** Of the readings of the last minute, 0 to 1. */
    double share() {
        return Math.min(1, sumMicros / (SECONDS * 1e6));
    }

    /** Nobody was listening, or event time has jumped. How often the channel speaks is known. */
    void forget() {
        Arrays.fill(lostMicros, 0);
        sumMicros = 0;
        latestMicros = Gauge.NEVER;
        afterBad = false;
        badMicros = 0;
        badSpanMicros = 0;
        gapsMicros = 0;
        gaps = 0;
        nowMicros = 0;
    }

    void keep(State state) {
        keep(state, "lostMicros", lostMicros, SECONDS);
        known = keep(state, "intervals", intervals, known);
        usualMicros = state.keep("usualMicros", usualMicros);
        longMicros = state.keep("longMicros", longMicros);
        sumMicros = state.keep("sumMicros", sumMicros);
        latestMicros = state.keep("latestMicros", latestMicros);
        afterBad = state.keep("afterBad", afterBad);
        badMicros = state.keep("badMicros", badMicros);
        badSpanMicros = state.keep("badSpanMicros", badSpanMicros);
        gapsMicros = state.keep("gapsMicros", gapsMicros);
        gaps = state.keep("gaps", gaps);
        nowMicros = state.keep("nowMicros", nowMicros);
    }

    private static int keep(State state, String name, long[] into, int count) {
        long[] kept = state.keep(name, Arrays.copyOf(into, count));
        if (kept.length > into.length) {
            throw new IllegalArgumentException("state is damaged: " + kept.length + " of " + name);
        }
        System.arraycopy(kept, 0, into, 0, kept.length);
        return kept.length;
    }
}
