package leat.measure;

import leat.measure.absence.Absence;
import leat.signal.Gauge;
import leat.wire.State;

/**
 * Measures how fast the boosted pressure falls after a stop: quickly when water leaves by a leak,
 * slowly when trapped air or a leaking valve holds it up. Thread-confined.
 */
final class FallMeter {

    private static final long BEFORE_MICROS = 5_000_000;
    private static final double HIGH_SHARE = 0.9;
    private static final double LOW_SHARE = 0.4;

    /** From a lower level a fall says little. */
    private static final double LEAST_LEVEL_PSI = 20;

    private static final double LONGEST_GAP_SECONDS = 1;

    private final Curve boosted = new Curve();
    private long stopMicros = Gauge.NEVER;

    /** The next boosted reading; it counts only while a fall is open. */
    void read(long atMicros, double psi) {
        if (stopMicros != Gauge.NEVER) {
            boosted.add(atMicros, psi);
        }
    }

    /**
     * The booster was stopped.
     *
     * @param before boosted pressure of at least the last seconds, up to now: a stop is seen a
     *     moment after it has come
     */
    void open(long stoppedMicros, Curve before) {
        stopMicros = stoppedMicros;
        boosted.clear();
        for (int i = before.indexFrom(stoppedMicros - BEFORE_MICROS); i < before.size(); i++) {
            boosted.add(before.at(i), before.psi(i));
        }
    }

    /** The fall is over before it could be measured: the booster runs, or event time has jumped. */
    void drop() {
        stopMicros = Gauge.NEVER;
        boosted.clear();
    }

    /** When the booster was stopped; {@link Gauge#NEVER} while no fall is open. */
    long stopMicros() {
        return stopMicros;
    }

    /**
     * Ends the fall.
     *
     * @param otherwise why there is none where the pressure was not seen to fall so far
     * @return seconds in which the pressure fell from 90 to 40 % of what it stood at in the last
     *     second before it began to fall
     */
    Figure end(Absence otherwise) {
        Figure fall =
                stopMicros == Gauge.NEVER
                        ? Figure.absent(Absence.STOP_NOT_SEEN)
                        : measure(
                                Stretch.of(
                                        boosted,
                                        stopMicros - BEFORE_MICROS,
                                        Long.MAX_VALUE - 1,
                                        stopMicros),
                                otherwise);
        drop();
        return fall;
    }

    private static Figure measure(Stretch curve, Absence otherwise) {
        double knee = Knee.of(curve);
        Figure level = curve.median(knee - Knee.LEVEL_SECONDS, knee, Absence.NOTHING_BEFORE_STOP);
        if (!level.isPresent()) {
            return level;
        }
        if (level.get() < LEAST_LEVEL_PSI) {
            return Figure.absent(Absence.TOO_LOW_TO_FALL);
        }
        double high = HIGH_SHARE * level.get();
        double low = LOW_SHARE * level.get();
        int down = firstTwoAtOrBelow(curve, low);
        int left = curve.lastAbove(high, down);
        if (down < 0 || left < 0) {
            return Figure.absent(otherwise);
        }
        if (curve.longestGap(left, down) > LONGEST_GAP_SECONDS) {
            return Figure.absent(Absence.GAP_IN_FALL);
        }
        return Figure.of(
                curve.crossing(down - 1, low) - curve.crossing(left, high), curve.interval());
    }

    private static int firstTwoAtOrBelow(Stretch curve, double level) {
        for (int i = 0; i + 1 < curve.size(); i++) {
            if (curve.second(i) > 0 && curve.psi(i) <= level && curve.psi(i + 1) <= level) {
                return i;
            }
        }
        return -1;
    }

    void keep(State state) {
        state.part("boosted", boosted::keep);
        stopMicros = state.keep("stopMicros", stopMicros);
    }
}
