package leat.watch;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;

/**
 * Writes the inputs of an invented feed line for tests: levels that are held, climbs of first
 * order, falls; with noise from a seed, sampled at 20 Hz, with a tick at every whole second.
 */
final class Line {

    static final long START = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z
    private static final long STEP = 50_000;

    private final List<Input> inputs = new ArrayList<>();
    private final Random random;
    private final double noisePsi;
    private long atMicros = START;
    private double inlet = 42;
    private double boosted;
    private boolean running;
    private boolean withRunSignal;
    private boolean valve;
    private boolean withValve;
    private boolean inletFrozen;
    private boolean boostedFrozen;
    private double inletRead;
    private double boostedRead;
    private final Set<Channel> broken = EnumSet.noneOf(Channel.class);
    private final Map<Limit, Double> limits = new EnumMap<>(Limit.class);

    private Line(double noisePsi, long seed) {
        this.noisePsi = noisePsi;
        random = new Random(seed);
    }

    /** Noise of 0.3 psi, a usual one. */
    static Line withSeed(long seed) {
        return new Line(0.3, seed);
    }

    static Line withNoise(double psi, long seed) {
        return new Line(psi, seed);
    }

    static Line quiet() {
        return new Line(0.02, 1);
    }

    Line runSignal() {
        withRunSignal = true;
        return this;
    }

    Line valveSignal() {
        withValve = true;
        return this;
    }

    Line valve(boolean open) {
        valve = open;
        return this;
    }

    Line limit(Limit limit, double value) {
        limits.put(limit, value);
        return this;
    }

    /** The inlet reads the same to the bit from now on, or moves again. */
    Line freezeInlet(boolean frozen) {
        inletFrozen = frozen;
        return this;
    }

    Line freezeBoosted(boolean frozen) {
        boostedFrozen = frozen;
        return this;
    }

    Line inlet(double psi) {
        inlet = psi;
        return this;
    }

    Line running(boolean on) {
        running = on;
        return this;
    }

    /** Holds both pressures. */
    Line hold(double seconds) {
        return towards(boosted, 1, seconds);
    }

    Line at(double boostedPsi) {
        boosted = boostedPsi;
        return this;
    }

    /** The boosted pressure goes towards a level with a time constant. */
    Line towards(double levelPsi, double tauSeconds, double seconds) {
        long steps = Math.round(seconds * 1e6 / STEP);
        double from = boosted;
        for (long i = 1; i <= steps; i++) {
            double t = i * STEP / 1e6;
            boosted = levelPsi + (from - levelPsi) * Math.exp(-t / tauSeconds);
            step();
        }
        return this;
    }

    /** Nothing comes but ticks. */
    Line silence(double seconds) {
        long end = atMicros + Math.round(seconds * 1e6);
        while (atMicros < end) {
            atMicros += STEP;
            if (atMicros % Tick.PERIOD_MICROS == 0) {
                inputs.add(new Tick(atMicros));
            }
        }
        return this;
    }

    /** Both pressures are held, and one channel's loop is broken for so long. */
    Line bad(Channel channel, double seconds) {
        broken.add(channel);
        hold(seconds);
        broken.remove(channel);
        return this;
    }

    Line input(Input input) {
        inputs.add(input);
        return this;
    }

    /** Event time itself jumps. */
    Line jump(long micros) {
        atMicros += micros;
        return this;
    }

    long now() {
        return atMicros;
    }

    private void step() {
        atMicros += STEP;
        if (withRunSignal) {
            inputs.add(Reading.good(Channel.RUNNING, atMicros, running ? 1 : 0));
        }
        if (withValve) {
            inputs.add(Reading.good(Channel.VALVE, atMicros, valve ? 1 : 0));
        }
        double inletNow = inlet + noisePsi * random.nextGaussian();
        double boostedNow = boosted + noisePsi * random.nextGaussian();
        inletRead = inletFrozen ? inletRead : inletNow;
        boostedRead = boostedFrozen ? boostedRead : boostedNow;
        read(Channel.INLET, inletRead);
        read(Channel.BOOSTED, boostedRead);
        if (atMicros % Tick.PERIOD_MICROS == 0) {
            inputs.add(new Tick(atMicros));
        }
    }

    private void read(Channel channel, double psi) {
        inputs.add(
                broken.contains(channel)
                        ? Reading.bad(channel, atMicros, Quality.LOOP_BROKEN)
                        : Reading.good(channel, atMicros, psi));
    }

    List<Input> inputs() {
        return List.copyOf(inputs);
    }

    WatchSettings settings() {
        Set<Channel> wired = EnumSet.of(Channel.INLET, Channel.BOOSTED);
        if (withRunSignal) {
            wired.add(Channel.RUNNING);
        }
        if (withValve) {
            wired.add(Channel.VALVE);
        }
        return new WatchSettings("jet-1", wired, Limits.with(limits));
    }

    /** What a fresh watch says of all this. */
    List<Outcome> outcomes() {
        List<Outcome> outcomes = new ArrayList<>();
        Watch watch = new Watch(settings());
        inputs.forEach(input -> watch.feed(input, outcomes::add));
        return outcomes;
    }
}
