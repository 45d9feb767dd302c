package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Spliterator;
import java.util.Spliterators;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import leat.bench.line.LineState;

/**
 * A scenario being played, sample by sample, as fast as it is asked. The same scenario at the same
 * rate gives the same samples. Thread-confined.
 */
public final class ScenarioRun {

    /** Longest step of the model in seconds. */
    private static final double LONGEST_STEP = 0.01;

    /** When a scenario begins where nothing else is said: a Monday morning. */
    public static final LocalDateTime USUAL_START = LocalDateTime.of(2026, 1, 5, 7, 0);

    private static final double LOWEST_HZ = 0.1;
    private static final double HIGHEST_HZ = 1000;

    private final Scenario scenario;
    private final long periodMicros;
    private final int stepsPerSample;
    private final List<MachineRun> machines = new ArrayList<>();
    private long micros;
    private long lap;
    private boolean begun;

    /** Sees what is true at every step of the model. */
    @FunctionalInterface
    public interface Witness {

        /**
         * What is true now.
         *
         * @param micros since the start of the scenario
         */
        void see(long micros, String machine, LineState truth);
    }

    /**
     * A run that has not begun.
     *
     * @param sampleHz samples a second of each machine, 0.1 to 1000
     */
    public ScenarioRun(Scenario scenario, double sampleHz) {
        this(scenario, sampleHz, USUAL_START);
    }

    /**
     * One that begins on another day; that matters for machines with starts by the day.
     *
     * @param zero UTC
     */
    public ScenarioRun(Scenario scenario, double sampleHz, LocalDateTime zero) {
        this(scenario, sampleHz, zero, scenario.machineNames());
    }

    /**
     * One of some of the machines; each does the same as in a run of all.
     *
     * @param only names of those
     */
    public ScenarioRun(Scenario scenario, double sampleHz, LocalDateTime zero, List<String> only) {
        this.scenario = requireNonNull(scenario, "scenario");
        if (!(sampleHz >= LOWEST_HZ && sampleHz <= HIGHEST_HZ)) {
            throw new IllegalArgumentException(
                    "sample rate must be " + LOWEST_HZ + " to " + HIGHEST_HZ + " Hz: " + sampleHz);
        }
        periodMicros = Math.round(1e6 / sampleHz);
        stepsPerSample = (int) Math.ceil(periodMicros / 1e6 / LONGEST_STEP);
        long seed = scenario.seed() * 1_000_003;
        for (MachineScript script : scenario.machines()) {
            if (only.contains(script.machine())) {
                machines.add(new MachineRun(script, seed, zero));
            }
            seed += 101;
        }
    }

    /**
     * One pass of a scenario as a stream: for each sample time, first sample at 0, one sample of
     * each machine in the order of the scenario.
     */
    public static Stream<Sample> samples(Scenario scenario, double sampleHz) {
        return samples(scenario, sampleHz, scenario.duration());
    }

    /** Likewise for another length of time: cut short, looped, or held after its end. */
    public static Stream<Sample> samples(Scenario scenario, double sampleHz, Duration length) {
        ScenarioRun run = new ScenarioRun(scenario, sampleHz);
        Iterator<List<Sample>> rows =
                new Iterator<>() {
                    @Override
                    public boolean hasNext() {
                        return run.nextMicros() * 1000 < length.toNanos();
                    }

                    @Override
                    public List<Sample> next() {
                        if (!hasNext()) {
                            throw new NoSuchElementException("the scenario is over");
                        }
                        return run.next();
                    }
                };
        int kind = Spliterator.ORDERED | Spliterator.NONNULL;
        return StreamSupport.stream(Spliterators.spliteratorUnknownSize(rows, kind), false)
                .flatMap(List::stream);
    }

    /** What of the water moved so far is not accounted for, as a share, in the worst machine. */
    public double missingWaterShare() {
        return machines.stream().mapToDouble(MachineRun::missingWaterShare).max().orElse(0);
    }

    /** Time of the sample that {@link #next} gives, microseconds since the start. */
    public long nextMicros() {
        return begun ? micros + periodMicros : 0;
    }

    /** Whether the next sample lies past the end; never so for a scenario that loops. */
    public boolean isOver() {
        return !scenario.loop() && nextMicros() * 1000 >= scenario.duration().toNanos();
    }

    /**
     * Plays on to the next sample. Past the end of a scenario that does not loop the machines stay
     * as the last event left them.
     *
     * @return one sample of each machine in the order of the scenario
     */
    public List<Sample> next() {
        return next((at, machine, truth) -> {});
    }

    /** Likewise, and shows each step on the way to a witness. */
    public List<Sample> next(Witness witness) {
        if (begun) {
            for (int step = 0; step < stepsPerSample; step++) {
                act(micros + periodMicros * step / stepsPerSample);
                double seconds = periodMicros / 1e6 / stepsPerSample;
                long after = micros + periodMicros * (step + 1) / stepsPerSample;
                for (MachineRun machine : machines) {
                    witness.see(after, machine.name(), machine.advance(seconds));
                }
            }
            micros += periodMicros;
        }
        begun = true;
        act(micros);
        return machines.stream().map(machine -> machine.sample(micros)).toList();
    }

    /** What is wrong with a machine now and how bad, in plain words. */
    public List<String> defects(String machine) {
        return machines.stream()
                .filter(one -> one.name().equals(machine))
                .findFirst()
                .map(MachineRun::defects)
                .orElse(List.of());
    }

    private void act(long now) {
        long lapMicros = scenario.duration().toNanos() / 1000;
        long current = scenario.loop() ? now / lapMicros : 0;
        if (current != lap) {
            lap = current;
            machines.forEach(MachineRun::rewind);
        }
        machines.forEach(machine -> machine.actUpTo(now, current * lapMicros));
    }
}
