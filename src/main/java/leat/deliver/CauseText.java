package leat.deliver;

import java.util.List;
import java.util.Optional;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;
import leat.rule.Finding;
import leat.words.CauseWords;
import leat.words.FindingWords;
import leat.words.FirstCheck;
import leat.words.Lines;

/**
 * What a message says of the cause of an alarm, and what to check because of it. Its shares are
 * leat's own choice. Immutable.
 */
final class CauseText {

    /** From this weight on a second cause is named beside it. */
    private static final double SECOND = 0.25;

    /** From this weight on a cause is named where none is clear. */
    private static final double PERHAPS = 0.1;

    private static final int MOST_PERHAPS = 3;
    private static final int MOST_REASONS = 2;

    private final Voice voice;

    CauseText(Voice voice) {
        this.voice = voice;
    }

    /** What was found and the likeliest cause of it, or else what was measured; for one line. */
    String what(Finding finding, Optional<Diagnosis> why) {
        FindingWords words = voice.findings();
        String what = words.what(finding);
        return why.isPresent()
                ? voice.say("subject.with.cause", what, brief(why.get()))
                : voice.say("subject.with.measured", what, words.measured(finding));
    }

    private String brief(Diagnosis why) {
        return CauseWords.isClear(why) ? causes().likely(why) : voice.say("subject.unclear");
    }

    /** The likeliest causes, and what speaks for the first. */
    void tell(Diagnosis why, Lines lines) {
        if (CauseWords.isClear(why)) {
            lines.add(voice.say("call.cause", likeliest(why)));
            because(why, lines);
        } else {
            String perhaps = perhaps(why);
            lines.add(
                    perhaps.isEmpty()
                            ? voice.say("call.unclear.nothing")
                            : voice.say("call.unclear", perhaps));
        }
    }

    private String likeliest(Diagnosis why) {
        String first = causes().likely(why);
        return why.suspects().stream()
                .skip(1)
                .filter(other -> other.weight() >= SECOND && other.cause().isFault())
                .findFirst()
                .map(
                        second ->
                                voice.say(
                                        "call.cause.or",
                                        first,
                                        causes().cause(second.cause()),
                                        percent(second)))
                .orElse(first);
    }

    private void because(Diagnosis why, Lines lines) {
        List<Reason> pro = why.first().pro();
        if (!pro.isEmpty()) {
            String reasons =
                    String.join(
                            "; ",
                            pro.stream()
                                    .limit(MOST_REASONS)
                                    .map(reason -> causes().evidence(why.first().cause(), reason))
                                    .toList());
            lines.add(voice.say("call.because", reasons, causes().basis(why)));
        }
    }

    private String perhaps(Diagnosis why) {
        return String.join(
                "; ",
                why.suspects().stream()
                        .filter(each -> each.weight() >= PERHAPS)
                        .filter(each -> each.cause().isFault())
                        .limit(MOST_PERHAPS)
                        .map(this::share)
                        .toList());
    }

    private String share(Suspect suspect) {
        return voice.say("call.unclear.share", causes().cause(suspect.cause()), percent(suspect));
    }

    private String percent(Suspect suspect) {
        return voice.numbers().number(100 * suspect.weight(), 0);
    }

    /** What to look at. */
    List<String> checks(Finding finding, Optional<Diagnosis> why) {
        return new FirstCheck(voice.phrases(), voice.numbers()).inFull(finding, why);
    }

    /** What to look at, in lines: one behind its heading, several below it. */
    void listChecks(Finding finding, Optional<Diagnosis> why, Lines lines) {
        List<String> checks = checks(finding, why);
        if (checks.size() == 1) {
            lines.add(voice.say("check-first.one", checks.get(0)));
            return;
        }
        lines.add(voice.say("check-first"));
        for (int i = 0; i < checks.size(); i++) {
            lines.add((i + 1) + ". " + checks.get(i));
        }
    }

    /** How to tell leat what the check has shown. */
    Optional<String> answer(String machine, Optional<Diagnosis> why) {
        return why.flatMap(CauseWords::decides)
                .map(Check::answers)
                .map(
                        answers ->
                                voice.say(
                                        "call.answer",
                                        machine,
                                        answers.get(0).key(),
                                        answers.get(1).key()));
    }

    private CauseWords causes() {
        return voice.causes();
    }
}
