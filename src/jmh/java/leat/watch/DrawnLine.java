package leat.watch;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.Consumer;
import leat.bench.line.FeedLine;
import leat.bench.line.LineState;
import leat.bench.line.LumpedLine;
import leat.bench.sensor.SensorFault;
import leat.bench.sensor.Tap;
import leat.bench.sensor.Transmitter;
import leat.signal.Channel;
import leat.signal.Contact;
import leat.signal.Conversion;
import leat.signal.Input;
import leat.signal.Tick;
import leat.signal.Transducer;
import leat.signal.TwoPoint;

/**
 * Drives the line of a drawn machine and feeds what its gauges read into a watch, at the rate at
 * which they are read, running and at rest. Thread-confined.
 */
final class DrawnLine {

    private static final long STEP_MICROS = Math.round(Trace.STEP * 1e6);
    private static final double TOLERANCE = 100;

    /** A line that changes by less in a second, so long after the stop, stands. */
    private static final double STILL_PSI = 0.01;

    private static final double FALLS = 10;
    private static final Conversion CONTACT = new Contact(false);
    private static final Map<Channel, Tap> TAPS =
            new EnumMap<>(
                    Map.of(
                            Channel.INLET, Tap.INLET,
                            Channel.BOOSTED, Tap.BOOSTED,
                            Channel.FILTERED, Tap.FILTERED));

    private final DrawnMachine machine;
    private final Consumer<Input> watch;
    private final FeedLine line;
    private final Map<Tap, Transmitter> transmitters = new EnumMap<>(Tap.class);
    private final Map<Tap, Double> gains = new EnumMap<>(Tap.class);
    private final Map<Tap, Double> offsets = new EnumMap<>(Tap.class);
    private final Conversion pressure;
    private final Random random;
    private Trace trace = new Trace();
    private Optional<Tap> loose = Optional.empty();
    private double looseShare;
    private double looseTurns;
    private boolean looseOpen;
    private boolean swapped;
    private LineState truth;
    private long atMicros;

    /**
     * A line that stands without pressure.
     *
     * @param atMicros event time at which it begins, a whole second
     */
    DrawnLine(DrawnMachine machine, long seed, long atMicros, Consumer<Input> watch) {
        this(machine, new LumpedLine(machine.line(), seed, TOLERANCE), seed, atMicros, watch);
    }

    /** Likewise with another model of the line. */
    DrawnLine(
            DrawnMachine machine, FeedLine line, long seed, long atMicros, Consumer<Input> watch) {
        this.machine = machine;
        this.line = line;
        this.watch = watch;
        this.atMicros = atMicros;
        random = new Random(seed);
        truth = line.state();
        for (Tap tap : Tap.values()) {
            Transmitter one =
                    new Transmitter(
                            machine.transducer(), seed + 1 + tap.ordinal(), tap.psi(line.state()));
            transmitters.put(tap, one);
            one.strike(SensorFault.OFFSET, machine.offsets().get(tap));
        }
        leat.bench.sensor.Loop loop = machine.transducer().loop();
        pressure =
                new Transducer(
                        Optional.of(new TwoPoint(0, 0, loop.fullCounts(), loop.topMilliamps())),
                        new TwoPoint(4, 0, 20, loop.rangePsi()),
                        -20,
                        250);
    }

    /** What is wrong is put into it through this. */
    FeedLine line() {
        return line;
    }

    /** Something is wrong with a transducer; sizes come on top of what it is off as it is. */
    void strike(Tap tap, SensorFault fault, double size) {
        if (fault == SensorFault.OFFSET) {
            offsets.put(tap, size);
            transmitters.get(tap).strike(fault, size + machine.offsets().get(tap));
        } else {
            if (fault == SensorFault.SPAN) {
                gains.put(tap, size / 100);
            }
            transmitters.get(tap).strike(fault, size);
        }
    }

    /** Crosses the cables of inlet and boosted. */
    void swap() {
        swapped = true;
    }

    /** The wire of a gauge opens again and again while the machine runs, for that share of it. */
    void loosen(Tap tap, double share) {
        loose = Optional.of(tap);
        looseShare = share;
    }

    long atMicros() {
        return atMicros;
    }

    /** Lets the machine stand. Once nothing moves any more the line is not solved on. */
    void rest(double seconds) {
        double stood = line.state().boostedPsi();
        boolean still = false;
        for (double at = 0; at < seconds; at += Trace.STEP) {
            if (atMicros % Tick.PERIOD_MICROS == 0) {
                still = Math.abs(line.state().boostedPsi() - stood) < STILL_PSI && at > FALLS;
                stood = line.state().boostedPsi();
            }
            step(still);
        }
    }

    /** Drives a run with the rest after it, and does something at a moment of it. */
    Seen run(DrawnRun run, double whenSeconds, Runnable what) {
        if (run.brokenOffAfter() > 0) {
            line.start();
            rest(run.brokenOffAfter());
            line.stop();
            rest(1 + 2.5 * random.nextDouble());
        }
        trace = new Trace();
        trace.add(shown());
        boolean jet = run.cutsAtOnce();
        turn(jet);
        line.start();
        Deque<Double> turns = new ArrayDeque<>(run.turns());
        double due = whenSeconds;
        for (double at = 0; at < run.seconds(); at += Trace.STEP) {
            if (at >= due) {
                what.run();
                due = Double.POSITIVE_INFINITY;
            }
            while (!turns.isEmpty() && at >= turns.peek()) {
                turns.remove();
                jet = !jet;
                turn(jet);
            }
            step(false);
        }
        line.stop();
        rest(run.restSeconds());
        return trace.seen();
    }

    private void turn(boolean jet) {
        if (jet) {
            line.cut();
        } else {
            line.pause();
        }
    }

    private void step(boolean still) {
        if (!still) {
            line.advance(Trace.STEP);
            truth = line.state();
        }
        atMicros += STEP_MICROS;
        trace.add(shown());
        transmitters.forEach((tap, one) -> one.advance(tap.psi(truth), Trace.STEP));
        loose.ifPresent(tap -> shake(tap, truth.running()));
        if (atMicros / STEP_MICROS % (20 / machine.hz()) == 0) {
            read();
        }
        if (atMicros % Tick.PERIOD_MICROS == 0) {
            watch.accept(new Tick(atMicros));
        }
    }

    /** Opens for a second or so, then holds for as long as makes the share. */
    private void shake(Tap tap, boolean running) {
        looseTurns -= Trace.STEP;
        if (looseTurns <= 0 || !running && looseOpen) {
            looseOpen = running && !looseOpen;
            double open = 0.6 + 1.2 * random.nextDouble();
            looseTurns = looseOpen ? open : open * (1 - looseShare) / looseShare;
            if (looseOpen) {
                transmitters.get(tap).strike(SensorFault.BROKEN_LOOP, 1);
            } else {
                transmitters.get(tap).repair(SensorFault.BROKEN_LOOP);
            }
        }
    }

    private void read() {
        contact(Channel.RUNNING, truth.running());
        contact(Channel.VALVE, truth.valveOpen());
        contact(Channel.CUTTING, truth.cutting());
        TAPS.forEach(
                (channel, tap) -> {
                    if (machine.has(channel)) {
                        int counts = transmitters.get(cabled(tap)).convert();
                        watch.accept(pressure.read(channel, atMicros, counts));
                    }
                });
    }

    private void contact(Channel channel, boolean on) {
        if (machine.has(channel)) {
            watch.accept(CONTACT.read(channel, atMicros, on ? 1 : 0));
        }
    }

    private Tap cabled(Tap tap) {
        if (!swapped) {
            return tap;
        }
        return switch (tap) {
            case INLET -> Tap.BOOSTED;
            case BOOSTED -> Tap.INLET;
            case FILTERED -> Tap.FILTERED;
        };
    }

    /** The line as gauges without noise show it. */
    private LineState shown() {
        return new LineState(
                gauge(Tap.INLET),
                gauge(Tap.BOOSTED),
                gauge(Tap.FILTERED),
                truth.running(),
                truth.valveOpen(),
                truth.cutting(),
                Optional.empty());
    }

    private double gauge(Tap tap) {
        double psi = cabled(tap).psi(truth);
        double read = psi * (1 + gains.getOrDefault(tap, 0.0)) + offsets.getOrDefault(tap, 0.0);
        return Math.max(-2.5, Math.min(206, read));
    }
}
