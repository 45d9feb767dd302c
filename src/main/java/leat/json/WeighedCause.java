package leat.json;

import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;
import leat.signal.PressureUnit;
import leat.words.CauseWords;
import leat.words.Language;
import leat.words.Numbers;
import leat.words.Phrases;

/**
 * A cause, as programs read it.
 *
 * @param weight its probability; those of a list that is not shortened sum to 1
 * @param pro what speaks for it, in words, the most telling first
 * @param contra what speaks against it, likewise
 * @param check what to look at to be sure; empty where nothing tells
 */
public record WeighedCause(
        Cause cause,
        double weight,
        @Called("for") List<String> pro,
        @Called("against") List<String> contra,
        @IfThere Optional<String> check) {

    /** Weights are told to four decimals. */
    private static final double STEPS = 1e4;

    /** A list whose weights sum to more lacks only what is too light to be told. */
    private static final double WHOLE = 0.995;

    /** In the language and unit that programs read, whatever the site is in. */
    private static final CauseWords IN_PSI =
            new CauseWords(
                    Phrases.in(Language.ENGLISH),
                    new Numbers(Language.ENGLISH, PressureUnit.PSI, ZoneOffset.UTC));

    /** In English and psi. */
    public static List<WeighedCause> of(Diagnosis diagnosis) {
        return of(diagnosis, IN_PSI);
    }

    /** The heaviest first; what is too light to have a weight in four decimals is left out. */
    public static List<WeighedCause> of(Diagnosis diagnosis, CauseWords words) {
        List<Suspect> told = diagnosis.suspects().stream().filter(each -> steps(each) > 0).toList();
        double sum = diagnosis.suspects().stream().mapToDouble(Suspect::weight).sum();
        long all = Math.round(STEPS * (sum > WHOLE ? 1 : sum));
        long others = told.stream().skip(1).mapToLong(WeighedCause::steps).sum();
        List<WeighedCause> causes = new ArrayList<>();
        for (Suspect suspect : told) {
            long steps = causes.isEmpty() ? all - others : steps(suspect);
            causes.add(of(suspect, steps / STEPS, words));
        }
        return List.copyOf(causes);
    }

    private static long steps(Suspect suspect) {
        return Math.round(suspect.weight() * STEPS);
    }

    private static WeighedCause of(Suspect suspect, double weight, CauseWords words) {
        Cause cause = suspect.cause();
        return new WeighedCause(
                cause,
                weight,
                in(words, cause, suspect.pro()),
                in(words, cause, suspect.contra()),
                suspect.check().map(Check::key));
    }

    private static List<String> in(CauseWords words, Cause cause, List<Reason> reasons) {
        return reasons.stream().map(reason -> words.evidence(cause, reason)).toList();
    }
}
