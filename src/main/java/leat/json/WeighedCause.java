package leat.json;

import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Cause;
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

    /** In the language and unit that programs read, whatever the site is in. */
    private static final CauseWords IN_PSI =
            new CauseWords(
                    Phrases.in(Language.ENGLISH),
                    new Numbers(Language.ENGLISH, PressureUnit.PSI, ZoneOffset.UTC));

    /**
     * In English and psi. The weights sum to 1: those of causes too light to be told are shared
     * among the others.
     */
    public static List<WeighedCause> of(Diagnosis diagnosis) {
        return of(diagnosis, Math.round(STEPS), IN_PSI);
    }

    /**
     * Of a shortened list, whose weights stay as they are. The heaviest first; what is too light to
     * have a weight in four decimals is left out.
     */
    public static List<WeighedCause> of(Diagnosis diagnosis, CauseWords words) {
        return of(diagnosis, Math.round(STEPS * sum(diagnosis)), words);
    }

    /**
     * @param all what the weights sum to
     */
    private static List<WeighedCause> of(Diagnosis diagnosis, long all, CauseWords words) {
        double scale = all / sum(diagnosis);
        List<Suspect> told =
                diagnosis.suspects().stream()
                        .filter(each -> Math.round(scale * each.weight()) > 0)
                        .toList();
        List<WeighedCause> causes = new ArrayList<>();
        long left = all;
        for (Suspect suspect : told.subList(1, told.size())) {
            long steps = Math.round(scale * suspect.weight());
            causes.add(of(suspect, steps / STEPS, words));
            left -= steps;
        }
        causes.add(0, of(told.get(0), left / STEPS, words));
        return List.copyOf(causes);
    }

    private static double sum(Diagnosis diagnosis) {
        return diagnosis.suspects().stream().mapToDouble(Suspect::weight).sum();
    }

    private static WeighedCause of(Suspect suspect, double weight, CauseWords words) {
        Cause cause = suspect.cause();
        return new WeighedCause(
                cause,
                weight,
                in(words, cause, suspect.pro()),
                in(words, cause, suspect.contra()),
                suspect.check().map(words::check));
    }

    private static List<String> in(CauseWords words, Cause cause, List<Reason> reasons) {
        return reasons.stream().map(reason -> words.evidence(cause, reason)).toList();
    }
}
