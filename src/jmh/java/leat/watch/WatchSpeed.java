package leat.watch;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Consumer;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.Tick;

/**
 * How many readings a second a watch takes on one core: two channels at 20 Hz with their ticks,
 * starts and stops, beside a bare loop that makes the same inputs and only looks at them. Run
 * {@link #main}; the first argument is millions of readings; with {@code steady} after it the run
 * does not end.
 */
final class WatchSpeed {

    private static final long STEP = 50_000;
    private static final int ROUNDS = 5;

    private WatchSpeed() {}

    /** The readings of 100 s with a run of a minute, to be fed over and over with new times. */
    private static double[][] wave(boolean steady) {
        Line line = Line.withSeed(1);
        List<Input> inputs =
                steady
                        ? line.at(100).hold(100).inputs()
                        : line.at(0).hold(20).towards(100, 0.6, 60).towards(0, 2, 20).inputs();
        return new double[][] {
            values(inputs, Channel.INLET), values(inputs, Channel.BOOSTED),
        };
    }

    private static double[] values(List<Input> inputs, Channel channel) {
        return inputs.stream()
                .filter(i -> i instanceof Reading r && r.channel() == channel)
                .mapToDouble(i -> ((Reading) i).value())
                .toArray();
    }

    /** Makes so many readings of both channels; returns the seconds that it took. */
    private static double feed(long readings, double[][] wave, Consumer<Input> into) {
        long began = System.nanoTime();
        long at = Line.START;
        int i = 0;
        for (long fed = 0; fed < readings; fed += 2) {
            at += STEP;
            into.accept(Reading.good(Channel.INLET, at, wave[0][i]));
            into.accept(Reading.good(Channel.BOOSTED, at, wave[1][i]));
            if (at % Tick.PERIOD_MICROS == 0) {
                into.accept(new Tick(at));
            }
            i = i + 1 == wave[0].length ? 0 : i + 1;
        }
        return (System.nanoTime() - began) / 1e9;
    }

    public static void main(String[] args) {
        long readings = (args.length == 0 ? 20 : Long.parseLong(args[0])) * 1_000_000;
        double[][] wave = wave(args.length > 1 && args[1].equals("steady"));
        for (int round = 1; round <= ROUNDS; round++) {
            double[] sum = {0};
            double bare = feed(readings, wave, input -> sum[0] += input.atMicros() & 1);
            long[] said = {0};
            Watch watch =
                    new Watch(
                            new WatchSettings(
                                    "jet-1",
                                    Set.of(Channel.INLET, Channel.BOOSTED),
                                    Limits.DEFAULTS));
            double watched = feed(readings, wave, input -> watch.feed(input, outcome -> said[0]++));
            System.out.printf(
                    Locale.ROOT,
                    "round %d: watch %.2f million readings/s (%d outcomes), bare loop %.1f (%s)%n",
                    round,
                    readings / watched / 1e6,
                    said[0],
                    readings / bare / 1e6,
                    sum[0]);
        }
    }
}
