package leat.diagnose;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What a diagnosis is asked: runs of one machine, beside some that are known to be sound, and what
 * is wrong in truth. Immutable.
 *
 * @param of the first of the runs
 * @param seen the runs
 * @param sound runs of the same machine while it was sound; may be empty
 */
record Example(PlayedRun of, List<Observation> seen, List<Observation> sound) {

    /** How plainly gauges without noise show it. */
    int plain() {
        return seen.size() > 1 ? of.plainOfCase() : of.plain();
    }

    Cause cause() {
        return of.cause();
    }

    Reference reference() {
        return Reference.of(sound);
    }

    List<Evidence> evidence() {
        return Evidence.of(seen, reference());
    }

    /** By machine, in the order of the file. */
    static Map<String, List<PlayedRun>> byMachine(List<PlayedRun> runs) {
        return runs.stream()
                .collect(
                        Collectors.groupingBy(
                                PlayedRun::whose, LinkedHashMap::new, Collectors.toList()));
    }

    /**
     * Each run by itself; of air, which leaves with the water that is drawn, the first of its case.
     */
    static List<Example> single(List<PlayedRun> runs, int known, long seed) {
        List<Example> all = new ArrayList<>();
        Random random = new Random(seed);
        byMachine(runs)
                .values()
                .forEach(
                        machine -> {
                            List<Observation> own = own(machine);
                            Set<Integer> aired = new HashSet<>();
                            machine.stream()
                                    .filter(run -> !run.isOwn())
                                    .filter(
                                            run ->
                                                    run.cause() != Cause.AIR
                                                            || aired.add(run.number()))
                                    .forEach(
                                            run ->
                                                    all.add(
                                                            new Example(
                                                                    run,
                                                                    List.of(run.seen()),
                                                                    some(own, known, random))));
                        });
        return all;
    }

    /** All runs of each case together. */
    static List<Example> together(List<PlayedRun> runs, int known, long seed) {
        return together(runs, known, seed, Integer.MAX_VALUE);
    }

    /**
     * @param most so many runs of each case, the first
     */
    static List<Example> together(List<PlayedRun> runs, int known, long seed, int most) {
        List<Example> all = new ArrayList<>();
        Random random = new Random(seed);
        byMachine(runs)
                .values()
                .forEach(
                        machine -> {
                            List<Observation> own = own(machine);
                            machine.stream()
                                    .filter(run -> !run.isOwn())
                                    .collect(
                                            Collectors.groupingBy(
                                                    PlayedRun::number,
                                                    LinkedHashMap::new,
                                                    Collectors.toList()))
                                    .values()
                                    .forEach(
                                            one ->
                                                    all.add(
                                                            new Example(
                                                                    one.get(0),
                                                                    one.stream()
                                                                            .limit(most)
                                                                            .map(PlayedRun::seen)
                                                                            .toList(),
                                                                    some(own, known, random))));
                        });
        return all;
    }

    private static List<Observation> own(List<PlayedRun> machine) {
        return machine.stream().filter(PlayedRun::isOwn).map(PlayedRun::seen).toList();
    }

    private static List<Observation> some(List<Observation> own, int known, Random random) {
        List<Observation> mixed = new ArrayList<>(own);
        Collections.shuffle(mixed, random);
        return List.copyOf(mixed.subList(0, Math.min(known, mixed.size())));
    }
}
