package leat.segment;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.signal.TwoPoint;

/** Invented polls of a machine: counts of a converter with noise, jitter, gaps, and bad spells. */
final class DrawnPolls {

    private static final long BEGIN = 1_767_225_600_000_000L;

    private final Random random;
    private final TwoPoint loop;
    private final TwoPoint pressure = new TwoPoint(4, 0, 20, 200);
    private final boolean inMillis;
    private final boolean claiming;
    private final int digits;

    DrawnPolls(long seed) {
        random = new Random(seed);
        loop = new TwoPoint(0, 0, 1 << 8 + random.nextInt(9), 20.48);
        inMillis = random.nextInt(4) > 0;
        claiming = random.nextInt(4) == 0;
        digits = random.nextInt(4);
    }

    List<Input> inputs(int polls) {
        List<Input> inputs = new ArrayList<>();
        long grid = BEGIN;
        long tick = BEGIN;
        double inlet = 40;
        for (int poll = 0; poll < polls; poll++) {
            grid += random.nextInt(500) == 0 ? 3_456_789 : 50_000;
            long at = grid + random.nextInt(1_500);
            at = inMillis ? at / 1_000 * 1_000 : at;
            while (tick < at) {
                inputs.add(new Tick(tick));
                tick += Tick.PERIOD_MICROS;
            }
            inlet += random.nextGaussian() * 0.2;
            inputs.add(reading(Channel.INLET, at, inlet));
            inputs.add(reading(Channel.BOOSTED, at, 2 * inlet + random.nextGaussian()));
            if (random.nextInt(50) > 0) {
                inputs.add(Reading.good(Channel.RUNNING, at, poll / 100 % 2));
            }
        }
        return inputs;
    }

    private Reading reading(Channel channel, long at, double psi) {
        if (random.nextInt(300) == 0) {
            return Reading.bad(channel, at, Quality.LOOP_BROKEN);
        }
        Quality quality = random.nextInt(40) == 0 ? Quality.LOOP_BELOW_BAND : Quality.GOOD;
        Reading reading = new Reading(channel, at, value(psi), quality);
        return claiming ? reading.claiming(at - 20_000 + random.nextInt(5_000)) : reading;
    }

    /** By a converter's counts, as decimal digits of a payload, or with every bit of a float. */
    private double value(double psi) {
        return switch (digits) {
            case 0, 1 -> pressure.at(loop.at(Math.rint(loop.inputFor(pressure.inputFor(psi)))));
            case 2 -> Math.rint(psi * 100) / 100;
            default -> (float) psi;
        };
    }
}
