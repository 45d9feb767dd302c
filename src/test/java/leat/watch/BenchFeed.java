package leat.watch;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Supplier;
import leat.Gear;
import leat.bench.line.LineState;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.sensor.Loop;
import leat.bench.sensor.Loops;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Contact;
import leat.signal.Conversion;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.signal.Transducer;
import leat.signal.TwoPoint;

/**
 * Turns a scenario of the bench into the inputs of one machine's watch, as the daemon would get
 * them over the wire: converter counts through the scaling of the generated {@code site.yaml}, a
 * tick at every whole second, and the loss of both pressures at the end of the record.
 */
final class BenchFeed {

    /** Event time of the scenario's start. */
    static final long START = Line.START;

    /** What of a machine is wired. */
    enum Wiring {
        PRESSURES(Set.of()),
        RUNNING(Set.of(Channel.RUNNING)),
        VALVE(Set.of(Channel.VALVE)),
        RUNNING_AND_VALVE(Set.of(Channel.RUNNING, Channel.VALVE));

        private final Set<Channel> contacts;

        /** By night each of them. */
        static Wiring[] tried() {
            return Gear.isThorough() ? values() : new Wiring[] {PRESSURES, RUNNING_AND_VALVE};
        }

        Wiring(Set<Channel> contacts) {
            this.contacts = contacts;
        }

        Set<Channel> channels() {
            Set<Channel> all = new java.util.HashSet<>(contacts);
            all.add(Channel.INLET);
            all.add(Channel.BOOSTED);
            return all;
        }
    }

    static final int BASE_HZ = 20;
    private static final long STEP = 1_000_000 / BASE_HZ;
    private static final Conversion PRESSURE = pressure(Loop.USUAL);
    private static final Conversion CONTACT = new Contact(false);

    private final Scenario scenario;
    private String machine;
    private Wiring wiring = Wiring.PRESSURES;
    private Duration length;
    private Optional<Tapes> tapes = Optional.empty();
    private int every = 1;
    private int boostedOffset;
    private boolean contactsOnChange;
    private boolean inletBehindValve;
    private boolean filtered;
    private double noisePsi = -1;
    private long seed = 1;
    private Map<Limit, Double> limits = Map.of();
    private final TreeMap<Long, Order.Entry> journal = new TreeMap<>();

    private BenchFeed(Scenario scenario) {
        this.scenario = scenario;
        machine = scenario.machineNames().get(0);
        length = scenario.duration();
    }

    static BenchFeed of(Scenario scenario) {
        return new BenchFeed(scenario);
    }

    BenchFeed machine(String name) {
        machine = name;
        return this;
    }

    BenchFeed wiring(Wiring wired) {
        wiring = wired;
        return this;
    }

    /** Taken from what was played before of the same scenario and machine, if it was. */
    BenchFeed from(Tapes played) {
        tapes = Optional.of(played);
        return this;
    }

    BenchFeed length(Duration howLong) {
        length = howLong;
        return this;
    }

    /** Polled at a rate that divides 20 Hz; both channels of one sample at one time. */
    BenchFeed hz(int hz) {
        every = BASE_HZ / hz;
        return this;
    }

    /** As over MQTT: two readings a second, the two channels in turn, contacts when they change. */
    BenchFeed published() {
        every = 10;
        boostedOffset = 5;
        contactsOnChange = true;
        return this;
    }

    /** The inlet transducer sits between the shut-off valve and the booster. */
    BenchFeed inletBehindValve() {
        inletBehindValve = true;
        noisePsi = Math.max(noisePsi, 0.3);
        return this;
    }

    /** With a gauge after the filters too. */
    BenchFeed filtered() {
        filtered = true;
        return this;
    }

    /** Noise of another size than the bench's own, before the converter. */
    BenchFeed noise(double psi, long noiseSeed) {
        noisePsi = psi;
        seed = noiseSeed;
        return this;
    }

    BenchFeed limits(Map<Limit, Double> changed) {
        limits = changed;
        return this;
    }

    BenchFeed journal(double second, Order.Entry entry) {
        journal.put(Math.round(second * 1e6), entry);
        return this;
    }

    WatchSettings settings() {
        Set<Channel> channels = wiring.channels();
        if (filtered) {
            channels.add(Channel.FILTERED);
        }
        return new WatchSettings(machine, channels, Limits.with(limits));
    }

    private static Conversion pressure(Loop loop) {
        return new Transducer(
                Optional.of(new TwoPoint(0, 0, loop.fullCounts(), loop.topMilliamps())),
                new TwoPoint(4, 0, 20, loop.rangePsi()),
                -20,
                250);
    }

    /** Feeds every input in order. */
    void into(Consumer<Input> consumer) {
        int index = scenario.machineNames().indexOf(machine);
        Loops loops = scenario.machines().get(index).transducers().loops();
        Conversion inlet = pressure(loops.inlet());
        Conversion boosted = pressure(loops.boosted());
        Supplier<Sample> samples =
                tapes.map(played -> played.play(scenario, machine))
                        .orElseGet(() -> Tapes.solved(scenario, machine));
        Random random = new Random(seed);
        long number = 0;
        long last = START;
        Sample before = null;
        while (number * STEP * 1000 < length.toNanos()) {
            Sample sample = samples.get();
            long at = START + sample.micros();
            while (!journal.isEmpty() && START + journal.firstKey() <= at) {
                consumer.accept(
                        new Instruction(
                                at,
                                "tech",
                                new Order.Journal(journal.pollFirstEntry().getValue(), "")));
            }
            boolean changed = before == null || before.running() != sample.running();
            boolean valveChanged = before == null || before.valveOpen() != sample.valveOpen();
            boolean due = number % every == 0;
            contact(
                    Channel.RUNNING,
                    at,
                    sample.running(),
                    contactsOnChange ? changed : due,
                    consumer);
            contact(
                    Channel.VALVE,
                    at,
                    sample.valveOpen(),
                    contactsOnChange ? valveChanged : due,
                    consumer);
            if (due) {
                double counts =
                        counts(
                                inletPsi(sample.truth()),
                                sample.inletCounts(),
                                loops.inlet(),
                                random);
                consumer.accept(inlet.read(Channel.INLET, at, counts));
            }
            if (number % every == boostedOffset) {
                double counts =
                        counts(
                                sample.truth().boostedPsi(),
                                sample.boostedCounts(),
                                loops.boosted(),
                                random);
                consumer.accept(boosted.read(Channel.BOOSTED, at, counts));
            }
            if (filtered && number % every == boostedOffset) {
                double counts =
                        counts(
                                sample.truth().filteredPsi(),
                                sample.filteredCounts(),
                                loops.filtered(),
                                random);
                consumer.accept(pressure(loops.filtered()).read(Channel.FILTERED, at, counts));
            }
            if (at % Tick.PERIOD_MICROS == 0) {
                consumer.accept(new Tick(at));
            }
            before = sample;
            number++;
            last = at;
        }
        long end = last + STEP;
        consumer.accept(new SourceLost(Channel.INLET, end, "end of the record"));
        consumer.accept(new SourceLost(Channel.BOOSTED, end, "end of the record"));
    }

    private double inletPsi(LineState truth) {
        return inletBehindValve ? truth.inside().orElseThrow().suctionPsi() : truth.inletPsi();
    }

    private void contact(Channel channel, long at, boolean on, boolean due, Consumer<Input> into) {
        if (due && wiring.contacts.contains(channel)) {
            into.accept(CONTACT.read(channel, at, on ? 1 : 0));
        }
    }

    /** The counts that the bench's own transmitter gave, or those of one with another noise. */
    private double counts(double truePsi, int sampled, Loop loop, Random random) {
        if (noisePsi < 0 || sampled == 0) {
            return sampled;
        }
        double milliamps = 4 + (truePsi + noisePsi * random.nextGaussian()) / loop.rangePsi() * 16;
        double clamped = Math.min(20.5, Math.max(3.8, milliamps));
        double perMilliamp = loop.fullCounts() / loop.topMilliamps();
        return Math.ceil(Math.max(3.8 * perMilliamp, Math.round(clamped * perMilliamp)));
    }

    List<Input> inputs() {
        List<Input> inputs = new ArrayList<>();
        into(inputs::add);
        return inputs;
    }

    /** What a fresh watch says of it. */
    Told told() {
        List<Outcome> outcomes = new ArrayList<>();
        Watch watch = new Watch(settings());
        into(input -> watch.feed(input, outcomes::add));
        return Told.of(outcomes);
    }

    /** The reading of a count, for tests that need it. */
    static Reading reading(Channel channel, long at, double counts) {
        return PRESSURE.read(channel, at, counts);
    }
}
