package leat.watch;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;

/**
 * Keeps what the bench has played at {@link BenchFeed#BASE_HZ}: a line is solved once, however many
 * wirings, samplings and noises it is read through. Confined to one test class.
 */
final class Tapes {

    private record Played(Scenario scenario, String machine) {}

    private static final class Tape {

        private final Supplier<Sample> source;
        private final List<Sample> samples = new ArrayList<>();

        Tape(Played played) {
            source = solved(played.scenario(), played.machine());
        }

        Sample sample(int number) {
            while (samples.size() <= number) {
                samples.add(source.get());
            }
            return samples.get(number);
        }
    }

    private final Map<Played, Tape> tapes = new HashMap<>();

    /** Sample after sample from the first on, of one machine; solved where it was not yet. */
    Supplier<Sample> play(Scenario scenario, String machine) {
        Tape tape = tapes.computeIfAbsent(new Played(scenario, machine), Tape::new);
        Iterator<Integer> numbers = IntStream.iterate(0, i -> i + 1).iterator();
        return () -> tape.sample(numbers.next());
    }

    /** Likewise, and nothing is kept. */
    static Supplier<Sample> solved(Scenario scenario, String machine) {
        ScenarioRun run =
                new ScenarioRun(
                        scenario, BenchFeed.BASE_HZ, ScenarioRun.USUAL_START, List.of(machine));
        return () -> run.next().get(0);
    }
}
