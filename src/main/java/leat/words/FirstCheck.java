package leat.words;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.rule.Finding;
import leat.rule.Grade;

/** What to do about an alarm first, in as few words as can be. Immutable. */
public final class FirstCheck {

    private final Phrases phrases;
    private final FindingWords findings;
    private final CauseWords causes;

    public FirstCheck(Phrases phrases, Numbers numbers) {
        this.phrases = requireNonNull(phrases, "phrases");
        findings = new FindingWords(phrases, numbers);
        causes = new CauseWords(phrases, numbers);
    }

    /**
     * In sentences: what to do at once, the likeliest cause where one is clear, and the check that
     * decides or else the first that is common practice for such a finding.
     */
    public List<String> of(Finding finding, Optional<Diagnosis> why) {
        List<String> sentences = new ArrayList<>();
        atOnce(finding).ifPresent(sentences::add);
        why.filter(CauseWords::isClear)
                .map(causes::likely)
                .map(FirstCheck::sentence)
                .ifPresent(sentences::add);
        asks(why).or(() -> findings.checks(finding).stream().findFirst()).ifPresent(sentences::add);
        return sentences;
    }

    /** What cannot wait; empty for what can. */
    public Optional<String> atOnce(Finding finding) {
        return finding.grade() == Grade.CRITICAL && !finding.rule().isAboutSignal()
                ? Optional.of(phrases.say("short.stop"))
                : Optional.empty();
    }

    /** The check that decides, as a question; empty where nothing is to be told apart. */
    public Optional<String> asks(Optional<Diagnosis> why) {
        return why.flatMap(CauseWords::decides).map(this::asks);
    }

    private String asks(Check check) {
        String asks = causes.asks(check);
        return check.toll() == Check.Toll.LOOK ? asks : phrases.say("short.isolate", asks);
    }

    /**
     * In full: the check that decides, or else those that are common practice for such a finding.
     * What is CRITICAL begins with what keeps the machine whole.
     */
    public List<String> inFull(Finding finding, Optional<Diagnosis> why) {
        List<String> usual = findings.checks(finding);
        Optional<Check> check = why.flatMap(CauseWords::decides);
        if (check.isEmpty()) {
            return usual;
        }
        String decides = causes.check(check.get());
        return finding.grade() == Grade.CRITICAL
                ? List.of(usual.get(0), decides)
                : List.of(decides);
    }

    /** Words as a sentence of their own. */
    public static String sentence(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1) + ".";
    }
}
