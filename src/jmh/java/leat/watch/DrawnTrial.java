package leat.watch;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.function.Consumer;
import leat.alarm.AlarmChange;
import leat.rule.Grade;

/**
 * One drawn machine on trial: it learns from sound runs, then each trouble is played on a watch
 * that is taken up where learning ended, with a line that begins afresh. Thread-confined.
 */
final class DrawnTrial {

    private static final int LEARNED_RUNS = 16;
    private static final int SOUND_RUNS = 10;
    private static final int FAULTY_RUNS = 4;
    private static final double STRIKES_IN_A_RUN = 0.3;
    private static final double FIRST_REST = 30;

    /**
     * A sound run, and what it was accused of.
     *
     * @param shown what was done, and what the gauges showed
     * @param learned whether the machine was known by then
     * @param calls what was raised from its start to the next
     */
    record SoundRun(int number, String shown, boolean learned, List<AlarmChange> calls) {

        boolean isAccused(Grade atLeast) {
            return calls.stream().anyMatch(call -> call.finding().grade().isAtLeast(atLeast));
        }
    }

    private final DrawnMachine machine;
    private final Consumer<Outcome> listener;
    private final List<SoundRun> soundRuns = new ArrayList<>();
    private final List<Seen> sound = new ArrayList<>();
    private final Set<String> standing = new HashSet<>();
    private byte[] snapshot = {};
    private long learnedAtMicros;

    /**
     * @param listener hears everything that is said while a trouble is played
     */
    DrawnTrial(DrawnMachine machine, Consumer<Outcome> listener) {
        this.machine = machine;
        this.listener = listener;
    }

    /** Plays the sound runs; everything else comes after it. */
    void learn() {
        Watch watch = new Watch(machine.settings());
        List<AlarmChange> changes = new ArrayList<>();
        Random random = new Random(machine.seed() + 1);
        DrawnLine line = line(watch, machine.seed(), BenchFeed.START, changes, outcome -> {});
        line.rest(FIRST_REST);
        for (int i = 0; i < LEARNED_RUNS; i++) {
            soundRun(line, random, i, changes);
        }
        snapshot = watch.snapshot();
        learnedAtMicros = line.atMicros();
        for (int i = LEARNED_RUNS; i < LEARNED_RUNS + SOUND_RUNS; i++) {
            soundRun(line, random, i, changes);
        }
    }

    private void soundRun(DrawnLine line, Random random, int number, List<AlarmChange> changes) {
        changes.clear();
        DrawnRun run = DrawnRun.of(machine.habit(), random);
        Seen seen = line.run(run, 0, () -> {});
        sound.add(seen);
        soundRuns.add(
                new SoundRun(
                        number,
                        run.words() + "; " + seen.words(),
                        number >= LEARNED_RUNS,
                        changes.stream().filter(DrawnCase::isCall).toList()));
        if (number < LEARNED_RUNS) {
            changes.forEach(this::stands);
        }
    }

    private void stands(AlarmChange change) {
        String rule = change.finding().rule().key();
        if (change.to().isActive()) {
            standing.add(rule);
        } else {
            standing.remove(rule);
        }
    }

    List<SoundRun> soundRuns() {
        return soundRuns;
    }

    /** Plays one trouble. */
    DrawnCase play(Trouble trouble, int which) {
        long seed = machine.seed() + 31L * trouble.key().hashCode() + 7L * which;
        Random random = new Random(seed);
        double size = trouble.size(which, random);
        List<AlarmChange> changes = new ArrayList<>();
        Watch watch = Watch.restore(machine.settings(), snapshot);
        DrawnLine line = line(watch, seed, learnedAtMicros, changes, listener);
        Runnable comes = () -> trouble.comes().into(line, size);
        boolean inRun = trouble.strikesInRuns() && random.nextDouble() < STRIKES_IN_A_RUN;
        if (!inRun) {
            comes.run();
        }
        line.rest(FIRST_REST);
        List<Seen> faulty = new ArrayList<>();
        for (int i = 0; i < FAULTY_RUNS; i++) {
            DrawnRun run = DrawnRun.of(machine.habit(), random);
            double when = (0.1 + 0.7 * random.nextDouble()) * run.seconds();
            Seen seen = line.run(run, when, inRun && i == 0 ? comes : () -> {});
            if (!inRun || i > 0) {
                faulty.add(seen);
            }
        }
        Seen own = Seen.middle(sound);
        Plain plain = plain(trouble, size, own, faulty);
        DrawnCase.Verdict verdict =
                DrawnCase.verdict(
                        trouble, changes, !trouble.always() && Plain.isCritical(faulty), standing);
        return new DrawnCase(
                machine,
                trouble,
                size,
                plain,
                verdict,
                changes.stream().filter(DrawnCase::isCall).map(DrawnCase::words).toList(),
                "own "
                        + own.words()
                        + "\n      now "
                        + Seen.middle(faulty).words()
                        + (inRun ? "\n      came in a run" : ""));
    }

    private Plain plain(Trouble trouble, double size, Seen own, List<Seen> faulty) {
        if (trouble.key().startsWith("loose-loop")) {
            return Plain.lost(size);
        }
        return trouble.always() ? Plain.always() : Plain.of(machine, own, faulty);
    }

    private DrawnLine line(
            Watch watch,
            long seed,
            long atMicros,
            List<AlarmChange> changes,
            Consumer<Outcome> hears) {
        Consumer<Outcome> into =
                outcome -> {
                    hears.accept(outcome);
                    if (outcome instanceof Outcome.AlarmChanged changed) {
                        changes.add(changed.change());
                    }
                };
        return new DrawnLine(machine, seed, atMicros, input -> watch.feed(input, into));
    }
}
