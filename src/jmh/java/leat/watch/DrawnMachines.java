package leat.watch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.function.Consumer;
import leat.rule.Grade;
import leat.watch.DrawnCase.Verdict;

/**
 * What leat says of machines drawn by chance: for each fault, by how plainly gauges without noise
 * show it, how many were said, passed over in silence, or called by a wrong name; and how often
 * sound runs were accused. Run by hand; it judges nothing.
 *
 * <pre>
 * --seed N        which machines; 1 is for tuning. Judging has seeds of its own, from 1001 on
 * --machines N    how many; 40
 * --fault KEY     only this one, such as worn-booster
 * --machine N     only this one of them
 * --verbose       each case that was not said, and each sound run that was accused
 * --outcomes      everything that was said of each trouble
 * </pre>
 */
final class DrawnMachines {

    private static final int MACHINES = 40;

    private final Map<String, int[][]> counts = new LinkedHashMap<>();
    private final List<DrawnTrial.SoundRun> soundRuns = new ArrayList<>();
    private final boolean verbose;

    private DrawnMachines(boolean verbose) {
        this.verbose = verbose;
    }

    public static void main(String[] arguments) {
        List<String> given = Arrays.asList(arguments);
        long seed = Long.parseLong(option(given, "--seed", "1"));
        int machines = Integer.parseInt(option(given, "--machines", "" + MACHINES));
        int only = Integer.parseInt(option(given, "--machine", "-1"));
        String fault = option(given, "--fault", "");
        boolean all = given.contains("--outcomes");
        DrawnMachines table = new DrawnMachines(given.contains("--verbose") || all);
        for (int number = 0; number < machines; number++) {
            if (only < 0 || only == number) {
                table.tryOut(DrawnMachine.of(seed, number), number, fault, all);
            }
        }
        table.print(seed);
    }

    /** So many machines of a seed, each with all its troubles. */
    static DrawnMachines of(long seed, int machines) {
        DrawnMachines table = new DrawnMachines(false);
        for (int number = 0; number < machines; number++) {
            table.tryOut(DrawnMachine.of(seed, number), number, "", false);
        }
        return table;
    }

    /** Of the troubles that gauges without noise show grossly, those that were so judged. */
    int gross(Verdict verdict) {
        return counts.values().stream()
                .mapToInt(of -> of[Plain.Grade.GROSS.ordinal()][verdict.ordinal()])
                .sum();
    }

    int soundRuns() {
        return soundRuns.size();
    }

    /** Sound runs in which something of that grade or a graver one was called. */
    long accused(Grade grade) {
        return soundRuns.stream().filter(run -> run.isAccused(grade)).count();
    }

    private static String option(List<String> given, String key, String usual) {
        int at = given.indexOf(key);
        return at < 0 ? usual : given.get(at + 1);
    }

    private void tryOut(DrawnMachine machine, int number, String only, boolean all) {
        Consumer<Outcome> listener =
                all ? outcome -> System.out.println("    " + outcome) : o -> {};
        DrawnTrial trial = new DrawnTrial(machine, listener);
        trial.learn();
        soundRuns.addAll(trial.soundRuns());
        if (verbose) {
            System.out.println(machine.words());
            trial.soundRuns().stream().filter(run -> !run.calls().isEmpty()).forEach(this::accused);
        }
        for (Trouble trouble : Trouble.of(machine, new Random(machine.seed() + 2))) {
            for (int which = 0; which < trouble.sizes().size(); which++) {
                boolean spared = trouble.sizes().size() > 1 && which == 0 && number % 2 == 0;
                if (trouble.key().startsWith(only) && !(spared && only.isEmpty())) {
                    take(trial.play(trouble, which));
                }
            }
        }
    }

    private void accused(DrawnTrial.SoundRun run) {
        System.out.printf(
                "  sound run %d: %s%n      %s%n",
                run.number(), run.calls().stream().map(DrawnCase::words).toList(), run.shown());
    }

    private void take(DrawnCase one) {
        int[][] of = counts.computeIfAbsent(one.trouble().kind(), key -> new int[4][4]);
        of[one.plain().grade().ordinal()][one.verdict().ordinal()]++;
        boolean missed =
                one.verdict() != Verdict.SAID
                        && one.plain().grade().compareTo(Plain.Grade.MILD) > 0;
        boolean wrong = one.verdict() == Verdict.WRONG;
        if (verbose && (missed || wrong)) {
            System.out.printf(
                    Locale.ROOT,
                    "  %s %s: %s %.2f of %s; said %s; shows %s%n      %s%n",
                    one.plain().grade(),
                    one.verdict(),
                    one.trouble().key(),
                    one.size(),
                    one.machine().name(),
                    one.calls(),
                    one.plain().signs(),
                    one.shown());
        }
    }

    private void print(long seed) {
        System.out.printf("%nseed %d; each: said, silent, wrong (stood before)%n", seed);
        System.out.printf(
                "%-19s %-17s %-17s %-14s %s%n", "", "gross", "middle", "mild", "shows nothing");
        int[] gross = new int[Verdict.values().length];
        counts.forEach(
                (key, of) -> {
                    System.out.printf(
                            "%-19s %s %s %s %s%n",
                            key,
                            cell(of[Plain.Grade.GROSS.ordinal()], 17),
                            cell(of[Plain.Grade.MIDDLE.ordinal()], 17),
                            cell(of[Plain.Grade.MILD.ordinal()], 14),
                            cell(of[Plain.Grade.NOTHING.ordinal()], 1));
                    for (int i = 0; i < gross.length; i++) {
                        gross[i] += of[Plain.Grade.GROSS.ordinal()][i];
                    }
                });
        double judged = gross[0] + gross[1] + gross[2];
        System.out.printf(
                Locale.ROOT,
                "gross: said %.1f %%, silent %.1f %%, wrong %.1f %% of %.0f%n",
                100 * gross[0] / judged,
                100 * gross[1] / judged,
                100 * gross[2] / judged,
                judged);
        sound("learning", soundRuns.stream().filter(run -> !run.learned()).toList());
        sound("known", soundRuns.stream().filter(DrawnTrial.SoundRun::learned).toList());
        sound("all", soundRuns);
    }

    private static String cell(int[] of, int wide) {
        String text = String.format("%3d %3d %3d", of[0], of[1], of[2]);
        String stood = of[3] > 0 ? " (" + of[3] + ")" : "";
        String none = of[0] + of[1] + of[2] + of[3] == 0 ? "" : text + stood;
        return String.format("%-" + wide + "s", none);
    }

    private static void sound(String which, List<DrawnTrial.SoundRun> runs) {
        long warned = runs.stream().filter(run -> run.isAccused(Grade.WARNING)).count();
        long any = runs.stream().filter(run -> run.isAccused(Grade.ADVISORY)).count();
        System.out.printf(
                Locale.ROOT,
                "sound runs, %s: %d; WARNING or more %d (%.2f %%), ADVISORY only %d (%.2f %%)%n",
                which,
                runs.size(),
                warned,
                100.0 * warned / runs.size(),
                any - warned,
                100.0 * (any - warned) / runs.size());
    }
}
