package leat.words;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Feature;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;
import leat.signal.Keyword;

/** Why a machine is as it is, and what to do, in words. Immutable. */
public final class CauseWords {

    /** From this share on a cause is named without a "likely"; a matter of wording. */
    private static final int SURE_PERCENT = 90;

    private static final int LIKELY_PERCENT = 60;
    private static final int PERHAPS_PERCENT = 40;

    /** A rival below this share is not worth a word in a sentence. */
    private static final int RIVAL_PERCENT = 20;

    /** Nothing that is judged from a few gauges is certain. */
    private static final int MOST_PERCENT = 99;

    /** With so many sound starts of its own a machine is compared with itself alone. */
    private static final int ENOUGH_STARTS = 10;

    /** Two gauges that differ by less read alike, psi; common practice, no source. */
    static final double ALIKE_PSI = 3;

    /** Of several starts, more than these did not rise. */
    private static final double HALF = 0.5;

    /** A cause of less weight is none that a person should be sent for; leat's own choice. */
    private static final double CLEAR = 0.4;

    private final Phrases phrases;
    private final Numbers numbers;

    public CauseWords(Phrases phrases, Numbers numbers) {
        this.phrases = requireNonNull(phrases, "phrases");
        this.numbers = requireNonNull(numbers, "numbers");
    }

    /**
     * One thing to do at a service.
     *
     * @param text a sentence or two
     * @param isMeasured whether a figure is to be written down
     */
    public record Step(String text, boolean isMeasured) {
        public Step {
            requireNonNull(text, "text");
        }
    }

    /** Whether one cause is likely enough to send a person for. */
    public static boolean isClear(Diagnosis why) {
        return why.first().weight() >= CLEAR && why.first().cause().isFault();
    }

    /** The check that decides; empty where nothing is to be told apart. */
    public static Optional<Check> decides(Diagnosis why) {
        return why.first().cause().isFault() ? why.check() : Optional.empty();
    }

    /** In a few words, such as {@code worn booster}. */
    public String cause(Cause cause) {
        return phrases.say("cause." + cause.key());
    }

    /** The likeliest cause and how likely it is, such as {@code worn booster likely, 84 %}. */
    public String likely(Diagnosis diagnosis) {
        Suspect first = diagnosis.first();
        if (first.cause() == Cause.UNKNOWN) {
            return phrases.say("likely.unknown");
        }
        String key = "likely." + how(first);
        String own = key + "." + first.cause().key();
        return phrases.say(
                phrases.has(own) ? own : key, cause(first.cause()), shown(percent(first)));
    }

    /** Likewise in fewer words, such as {@code worn booster, 84 %}. */
    public String share(Diagnosis diagnosis) {
        Suspect first = diagnosis.first();
        return phrases.say("likely.sure", cause(first.cause()), shown(percent(first)));
    }

    /** What is wrong and what to do about it, in one sentence that needs no other. */
    public String sentence(Diagnosis diagnosis) {
        Suspect first = diagnosis.first();
        Optional<Suspect> rival = rival(diagnosis);
        if (first.cause() == Cause.UNKNOWN) {
            return unknown(diagnosis, rival);
        }
        String what =
                phrases.say(
                        "sentence." + how(first),
                        phrases.say("is." + first.cause().key()),
                        share(first, rival));
        String now = "now." + first.cause().key();
        if (phrases.has(now)) {
            return phrases.say("sentence.do", what, phrases.say(now));
        }
        return diagnosis
                .check()
                .map(check -> phrases.say("sentence.check", what, toDo(first), look(check)))
                .orElseGet(() -> phrases.say("sentence.do", what, alone(first)));
    }

    private String unknown(Diagnosis diagnosis, Optional<Suspect> rival) {
        String what =
                rival.map(other -> phrases.say("sentence.unknown.rival", next(other)))
                        .orElseGet(() -> phrases.say("sentence.unknown"));
        String toDo = diagnosis.check().map(this::look).orElseGet(() -> toDo(diagnosis.first()));
        return phrases.say("sentence.do", what, toDo);
    }

    private String toDo(Suspect suspect) {
        return phrases.say("do." + suspect.cause().key());
    }

    /** What to do where no check tells; on a mere guess nothing is replaced. */
    private String alone(Suspect suspect) {
        return percent(suspect) >= LIKELY_PERCENT ? toDo(suspect) : phrases.say("do.unsure");
    }

    private String look(Check check) {
        return phrases.say("check." + check.key() + ".look");
    }

    private String share(Suspect first, Optional<Suspect> rival) {
        String own = phrases.say("sentence.share", shown(percent(first)));
        return rival.map(other -> phrases.say("sentence.share.rival", own, next(other)))
                .orElse(own);
    }

    private String next(Suspect rival) {
        return phrases.say("sentence.rival", asRival(rival.cause()), shown(percent(rival)));
    }

    private String asRival(Cause cause) {
        String key = "cause." + cause.key() + ".rival";
        return phrases.has(key) ? phrases.say(key) : cause(cause);
    }

    private static Optional<Suspect> rival(Diagnosis diagnosis) {
        return diagnosis.suspects().stream()
                .skip(1)
                .findFirst()
                .filter(other -> percent(other) >= RIVAL_PERCENT);
    }

    private static String how(Suspect suspect) {
        int percent = percent(suspect);
        if (percent >= SURE_PERCENT) {
            return "sure";
        }
        if (percent >= LIKELY_PERCENT) {
            return "likely";
        }
        return percent >= PERHAPS_PERCENT ? "perhaps" : "unclear";
    }

    private static int percent(Suspect suspect) {
        return (int) Math.min(MOST_PERCENT, Math.round(100 * suspect.weight()));
    }

    private String shown(int percent) {
        return numbers.number(percent, 0);
    }

    /** A piece of evidence, such as {@code drop when strokes begin 22.5 psi, usual 4.2 psi}. */
    public String reason(Reason reason) {
        if (reason.feature() == Feature.NOT_RISEN) {
            return phrases.say(reason.value() < HALF ? "feature.risen" : "feature.not-risen");
        }
        String feature = feature(reason.feature());
        String value = figure(reason.feature(), reason.value());
        return reason.usual().isPresent()
                ? phrases.say(
                        "why.usual",
                        feature,
                        value,
                        figure(reason.feature(), reason.usual().getAsDouble()))
                : phrases.say("why", feature, value);
    }

    /**
     * A piece of evidence with what it shows, such as {@code the pump gives out under load: drop
     * when strokes begin 22.5 psi, usual 4.2 psi}.
     *
     * @param cause for which or against which it speaks
     */
    public String evidence(Cause cause, Reason reason) {
        String why = isLess(reason) ? "why.less" : "why.because";
        return shows(cause, reason)
                .map(shows -> phrases.say(why, shows, reason(reason)))
                .orElseGet(() -> reason(reason));
    }

    /** Whether it differs as with the cause, by less. */
    private static boolean isLess(Reason reason) {
        return reason.fallsShort()
                && reason.side().filter(side -> side != Reason.Side.USUAL).isPresent();
    }

    /** What stands for one cause tells only on the side on which it speaks. */
    private Optional<String> shows(Cause cause, Reason reason) {
        String own = (reason.weight() < 0 ? "against." : "for.") + cause.key() + ".";
        return reason.side()
                .map(side -> reason.feature().key() + "." + Keyword.of(side))
                .flatMap(
                        what ->
                                Stream.of(own + what, "shows." + what)
                                        .filter(phrases::has)
                                        .findFirst())
                .map(phrases::say);
    }

    private String figure(Feature feature, double value) {
        return numbers.figure(feature.measurand().unit(), value);
    }

    /** What is looked at, such as {@code drop when strokes begin}. */
    public String feature(Feature feature) {
        String own = "feature." + feature.key();
        return phrases.say(phrases.has(own) ? own : "measurand." + feature.measurand().key());
    }

    /** What to do, and what each answer means. */
    public String check(Check check) {
        Answer one = check.answers().get(0);
        Answer other = check.answers().get(1);
        return phrases.say(
                "check",
                phrases.say("check." + check.key() + ".do"),
                answer(one),
                meaning(one),
                answer(other),
                meaning(other));
    }

    /** What to do for a check, as an order without a full stop. */
    public String toDo(Check check) {
        return phrases.say("check." + check.key() + ".do");
    }

    /** A short question with two answers. */
    public String asks(Check check) {
        return phrases.say("check." + check.key() + ".asks", numbers.about(ALIKE_PSI));
    }

    /** An answer in a word or two. */
    public String answer(Answer answer) {
        return phrases.say("answer." + answer.key());
    }

    /** What an answer points to, in a few words. */
    public String meaning(Answer answer) {
        return phrases.say("meaning-of." + answer.key());
    }

    /** What a careful technician does about a cause, in order; empty where nothing is wrong. */
    public List<Step> steps(Cause cause) {
        return steps(cause, phrases.say("step.tell.machine"));
    }

    /**
     * @param machine its name, for the command that tells leat what was found
     * @see #steps(Cause)
     */
    public List<Step> steps(Cause cause, String machine) {
        return new ServiceSteps(phrases, numbers).of(cause, machine);
    }

    /** What a diagnosis rests on, such as {@code from 4 starts, compared with its own 12}. */
    public String basis(Diagnosis diagnosis) {
        int known = diagnosis.known();
        String key =
                known == 0 ? "basis.general" : known < ENOUGH_STARTS ? "basis.few" : "basis.own";
        String basis =
                phrases.say(
                        key,
                        phrases.say("basis.starts", diagnosis.observations()),
                        numbers.number(known, 0));
        int answers = diagnosis.answers().size();
        return answers == 0 ? basis : phrases.say("basis.answers", basis, answers);
    }
}
