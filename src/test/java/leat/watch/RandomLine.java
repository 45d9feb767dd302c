package leat.watch;

import java.util.List;
import java.util.Random;
import leat.alarm.AlarmChange;
import leat.rule.Limit;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;

/** Invents a line's day from a seed: starts of every kind, faults, silence, clock steps, people. */
final class RandomLine {

    private static final long SPREAD = 0x9E3779B97F4A7C15L;

    private static final double[] NOISES = {0.02, 0.3, 1.2};

    private final Random random;
    private final Line line;

    private RandomLine(long seed) {
        random = new Random(seed * SPREAD); // the first draws of neighbouring seeds are alike
        line = Line.withNoise(NOISES[random.nextInt(NOISES.length)], seed);
        // few starts make a baseline, so that a short day has some
        line.limit(Limit.BASELINE_STARTS, 3).limit(Limit.BASELINE_STARTS_RUNNING, 2);
        if (seed % 3 == 0) {
            line.limit(Limit.INLET_LATCH, 1);
        }
        if (seed % 2 == 0) {
            line.runSignal();
        }
        if (seed / 2 % 2 == 0) {
            line.valveSignal();
        }
    }

    static Line of(long seed, int episodes) {
        RandomLine day = new RandomLine(seed);
        day.line.at(0).hold(3 + day.random.nextInt(12));
        for (int i = 0; i < episodes; i++) {
            day.episode();
        }
        return day.line;
    }

    private void episode() {
        switch (random.nextInt(15)) {
            case 0, 1, 2 -> run();
            case 3 -> line.silence(0.5 + random.nextInt(9)).hold(2);
            case 4 -> lose();
            case 5 -> bad();
            case 6 -> journal();
            case 7 -> flicker();
            case 8 -> runSlowly();
            case 9 -> runFrozen();
            case 10 -> restart();
            case 11 -> creep();
            case 12 -> pauseMoving();
            case 13 -> work();
            default -> {
                if (random.nextInt(4) == 0) {
                    step();
                } else {
                    line.hold(random.nextInt(30));
                }
            }
        }
    }

    private Line running(boolean on) {
        return line.running(on).valve(on);
    }

    /** Some sound starts, and some after the machine has changed. */
    private void work() {
        line.inlet(42);
        int sound = 3 + random.nextInt(4);
        int changed = random.nextInt(4);
        for (int i = 0; i < sound + changed; i++) {
            running(true).towards(i < sound ? 100 : 75 + random.nextInt(20), 0.6, 16);
            running(false).towards(0, 1, 20);
        }
    }

    /** A start that climbs slowly, late or hardly at all. */
    private void runSlowly() {
        running(true).hold(random.nextInt(20));
        line.towards(random.nextInt(110), 1 + 3 * random.nextDouble(), 10 + random.nextInt(60));
        running(false).towards(0, 1, random.nextInt(30));
    }

    /** A channel stands still, from before the start or from some time in the run. */
    private void runFrozen() {
        freeze(random.nextInt(3) == 0);
        running(true).towards(100, 0.6, 20);
        freeze(true);
        line.hold(random.nextInt(9));
        line.inlet(20 + random.nextInt(30)).towards(60 + random.nextInt(40), 2, 40);
        line.freezeInlet(false).freezeBoosted(false).hold(random.nextInt(20));
        running(false).towards(0, 1, random.nextInt(30));
    }

    private void freeze(boolean now) {
        if (now && random.nextBoolean()) {
            line.freezeInlet(true);
        } else if (now) {
            line.freezeBoosted(true);
        }
    }

    /** Quiet for a moment, as a slow converter is. */
    private void pauseMoving() {
        line.freezeInlet(true).freezeBoosted(true).hold(1 + random.nextInt(5));
        line.freezeInlet(false).freezeBoosted(false).hold(1);
    }

    private void restart() {
        for (int i = random.nextInt(5); i >= 0; i--) {
            running(true).towards(60 + random.nextInt(60), 0.6, 1 + random.nextInt(8));
            running(false).towards(0, 2, 0.5 + random.nextInt(4));
        }
        line.hold(random.nextInt(20));
    }

    /** The pressure moves without a start. */
    private void creep() {
        line.towards(random.nextInt(45), 1 + random.nextInt(8), 5 + random.nextInt(40));
    }

    private void flicker() {
        for (int i = 0; i < 20; i++) {
            line.hold(0.3).input(Reading.bad(Channel.INLET, line.now() + 1, Quality.LOOP_SHORTED));
        }
    }

    private void run() {
        line.inlet(2 + random.nextInt(60));
        running(true).hold(random.nextDouble());
        line.towards(
                30 + random.nextInt(130), 0.2 + 4 * random.nextDouble(), 5 + random.nextInt(80));
        running(false)
                .towards(random.nextInt(40), 0.5 + 6 * random.nextDouble(), 5 + random.nextInt(50));
    }

    private void lose() {
        Channel channel = Channel.values()[random.nextInt(5)];
        line.input(new SourceLost(channel, line.now(), "cable cut"));
        line.silence(random.nextInt(12));
        line.input(new SourceBack(channel, line.now())).hold(3);
    }

    private void bad() {
        Channel channel = random.nextBoolean() ? Channel.INLET : Channel.BOOSTED;
        for (int i = 0; i < 3 + random.nextInt(12); i++) {
            line.silence(1).input(Reading.bad(channel, line.now(), Quality.LOOP_BROKEN));
        }
        line.hold(2);
    }

    private void journal() {
        Order.Entry[] entries = Order.Entry.values();
        Order.Entry entry = entries[random.nextInt(entries.length)];
        String found = entry == Order.Entry.ANSWER ? "recovers" : "";
        line.input(
                new Instruction(
                        line.now(), "tech", new Order.Journal(entry, "filter changed", found)));
        List<AlarmChange> alarms = Told.by(line).alarms;
        String id =
                alarms.isEmpty()
                        ? "no such alarm"
                        : alarms.get(random.nextInt(alarms.size())).alarmId();
        line.input(about(id));
    }

    private Instruction about(String id) {
        long now = line.now();
        return switch (random.nextInt(8)) {
            case 0 -> new Instruction(now, "tech", new Order.Reset(id));
            case 1, 2 -> {
                long until = now + random.nextInt(200) * 1_000_000L;
                yield new Instruction(now, "tech", new Order.Shelve(id, until, "part on order"));
            }
            case 3 -> new Instruction(now, "tech", new Order.Unshelve(id));
            case 4 -> new Instruction(now, "tech", new Order.Remove(id, "new gauge"));
            case 5 -> new Instruction(now, "tech", new Order.Restore(id));
            default -> new Instruction(now, "tech", new Order.Acknowledge(id));
        };
    }

    private void step() {
        long from = line.now();
        line.jump((random.nextInt(7200) - 3600) * 1_000_000L);
        line.input(new ClockStep(line.now(), from)).hold(5);
    }
}
