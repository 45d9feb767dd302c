package leat.watch;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;
import java.util.Random;

/**
 * One run as somebody might drive it: jet on, jet off, and now and then a start that is broken off
 * and begun again. Invented.
 *
 * @param seconds how long it is
 * @param cutsAtOnce whether the jet is on from the first stroke
 * @param turns when the jet is turned on or off, seconds after the start, rising
 * @param brokenOffAfter a start that was stopped after so many seconds came before; 0 for none
 * @param restSeconds rest after it
 */
record DrawnRun(
        double seconds,
        boolean cutsAtOnce,
        Deque<Double> turns,
        double brokenOffAfter,
        double restSeconds) {

    private static final double ALL_ALONG = 0.4;
    private static final double CUTS_AT_ONCE = 0.8;
    private static final double BROKEN_OFF = 0.04;

    DrawnRun {
        turns = new ArrayDeque<>(turns);
    }

    String words() {
        return String.format(
                Locale.ROOT,
                "%.1f s, jet %s, turned at %s%s",
                seconds,
                cutsAtOnce ? "on" : "off",
                turns.stream().map(Math::round).toList(),
                brokenOffAfter > 0 ? ", begun twice" : "");
    }

    static DrawnRun of(DrawnMachine.Habit habit, Random random) {
        double seconds = habit.draw(random);
        boolean cutsAtOnce = random.nextDouble() < CUTS_AT_ONCE;
        Deque<Double> turns = new ArrayDeque<>();
        boolean jet = cutsAtOnce;
        if (!cutsAtOnce || random.nextDouble() > ALL_ALONG) {
            double at = cutsAtOnce ? 4 + 20 * random.nextDouble() : 3 + 6 * random.nextDouble();
            while (at < seconds) {
                turns.add(at);
                jet = !jet;
                at += jet ? 2 + 23 * random.nextDouble() : 1 + 11 * random.nextDouble();
            }
        }
        double brokenOffAfter =
                random.nextDouble() < BROKEN_OFF ? 0.8 + 1.5 * random.nextDouble() : 0;
        return new DrawnRun(
                seconds, cutsAtOnce, turns, brokenOffAfter, 40 + 35 * random.nextDouble());
    }
}
