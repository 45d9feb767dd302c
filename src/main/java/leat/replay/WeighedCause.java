package leat.replay;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;
import leat.json.Called;
import leat.json.IfThere;
import leat.report.Json;

/**
 * A cause, as programs read it.
 *
 * @param weight its probability; those of a list sum to 1
 * @param pro what speaks for it, in words, the most telling first
 * @param contra what speaks against it, likewise
 * @param check what to look at to be sure, in words; empty where nothing tells
 */
public record WeighedCause(
        Cause cause,
        double weight,
        @Called("for") List<String> pro,
        @Called("against") List<String> contra,
        @IfThere Optional<String> check) {

    /** Weights are told to four decimals. */
    private static final double STEPS = 1e4;

    /** The heaviest first; what is too light to have a weight in four decimals is left out. */
    public static List<WeighedCause> of(Diagnosis diagnosis) {
        List<Suspect> told = diagnosis.suspects().stream().filter(each -> steps(each) > 0).toList();
        long others = told.stream().skip(1).mapToLong(WeighedCause::steps).sum();
        List<WeighedCause> causes = new ArrayList<>();
        for (Suspect suspect : told) {
            long steps = causes.isEmpty() ? Math.round(STEPS) - others : steps(suspect);
            causes.add(of(suspect, steps / STEPS));
        }
        return List.copyOf(causes);
    }

    private static long steps(Suspect suspect) {
        return Math.round(suspect.weight() * STEPS);
    }

    private static WeighedCause of(Suspect suspect, double weight) {
        return new WeighedCause(
                suspect.cause(),
                weight,
                suspect.pro().stream().map(WeighedCause::words).toList(),
                suspect.contra().stream().map(WeighedCause::words).toList(),
                suspect.check().map(check -> check.key()));
    }

    private static String words(Reason reason) {
        return Json.IN_PSI.title(reason.feature().measurand()) + " " + reason.value();
    }
}
