package leat.report;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;
import leat.words.CauseWords;
import leat.words.Lines;

/**
 * A diagnosis as lines of text: what is likely and what to do; then, below a curve, what speaks for
 * and against each cause, and the check that decides. Immutable.
 *
 * @param why what is told
 * @param shown how it is told
 * @param glyphs what the terminal can show
 * @param width columns of a line at most, unless one word is longer
 */
public record WhyLines(Diagnosis why, Shown shown, Glyphs glyphs, int width) {

    /** What a terminal has where nobody has made it wider. */
    public static final int NARROW = 80;

    private static final int MOST_SUSPECTS = 3;

    /** A third is only named: all of it has to stand on one screen. */
    private static final int MOST_EXPLAINED = 2;

    private static final double LEAST_WEIGHT = 0.02;

    /** For the likeliest cause; of the others, and against each, the most telling one. */
    private static final int MOST_REASONS = 2;

    public WhyLines {
        requireNonNull(why, "why");
        requireNonNull(shown, "shown");
        requireNonNull(glyphs, "glyphs");
    }

    /** What is wrong, how sure that is, and what to do. */
    public List<String> sentence() {
        return shown(new Lines(width).add(words().sentence(why)));
    }

    /**
     * The reasons for and against the first two causes, the check, the basis and, where hands go to
     * the line, the caution.
     *
     * @param answering the command that takes an answer, but for the answer; empty where nobody can
     *     be answered
     */
    public List<String> reasons(Optional<String> answering) {
        Lines lines = new Lines(width);
        List<Suspect> told = told();
        for (Suspect suspect : told) {
            cause(suspect, lines);
            int place = told.indexOf(suspect);
            if (place < MOST_EXPLAINED) {
                int most = place == 0 ? MOST_REASONS : 1;
                reasons("screen.for", suspect, suspect.pro(), most, lines);
                reasons("screen.against", suspect, suspect.contra(), 1, lines);
            }
        }
        why.check().ifPresent(check -> check(check, answering, lines));
        end("", lines);
        return shown(lines);
    }

    /**
     * The causes and the caution, where other things stand on the screen too: reasons for the first
     * cause alone, and of the check what the sentence says.
     *
     * @param more the command that tells all of it; empty where there is none
     */
    public List<String> brief(Optional<String> more) {
        Lines lines = new Lines(width);
        lines.add(
                told().stream()
                        .map(
                                each ->
                                        shown.percent(each.weight())
                                                + " "
                                                + words().cause(each.cause()))
                        .collect(Collectors.joining(", ")));
        reasons("screen.for", why.first(), why.first().pro(), MOST_REASONS, lines);
        reasons("screen.against", why.first(), why.first().contra(), 1, lines);
        end(more.map(command -> " " + shown.say("screen.more", command)).orElse(""), lines);
        return shown(lines);
    }

    private List<Suspect> told() {
        return why.suspects().stream()
                .filter(each -> each == why.first() || each.weight() >= LEAST_WEIGHT)
                .limit(MOST_SUSPECTS)
                .toList();
    }

    private void cause(Suspect suspect, Lines lines) {
        lines.add(
                String.format("%6s ", shown.percent(suspect.weight())),
                words().cause(suspect.cause()),
                " ".repeat(7));
    }

    private void end(String more, Lines lines) {
        lines.add(shown.say("screen.basis", words().basis(why)) + "." + more);
        if (isWork(why)) {
            lines.add(shown.say("screen.caution", shown.findings().caution()));
        }
    }

    /** Whether somebody is sent to the machine. */
    static boolean isWork(Diagnosis why) {
        return why.first().cause() != Cause.HEALTHY;
    }

    private void reasons(
            String side, Suspect suspect, List<Reason> reasons, int most, Lines lines) {
        if (!reasons.isEmpty()) {
            String head = " ".repeat(7) + shown.say(side) + ": ";
            List<String> clauses =
                    reasons.stream()
                            .limit(most)
                            .map(reason -> words().evidence(suspect.cause(), reason))
                            .toList();
            lines.add(head, String.join("; ", clauses), " ".repeat(9));
        }
    }

    private void check(Check check, Optional<String> answering, Lines lines) {
        lines.add(
                shown.say("screen.decides", words().toDo(check), shown.number(check.minutes(), 0)));
        for (Answer answer : check.answers()) {
            String meaning = words().answer(answer) + ": " + words().meaning(answer) + ".";
            lines.add(
                    "  ",
                    meaning
                            + answering
                                    .map(command -> " " + command + " " + answer.key())
                                    .orElse(""),
                    "     ");
        }
    }

    private CauseWords words() {
        return shown.causes();
    }

    private List<String> shown(Lines lines) {
        return lines.broken().stream().map(glyphs::shown).toList();
    }
}
