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
        if (finding.grade() == Grade.CRITICAL && !finding.rule().isAboutSignal()) {
            sentences.add(phrases.say("short.stop"));
        }
        why.filter(CauseWords::isClear).map(this::cause).ifPresent(sentences::add);
        why.flatMap(CauseWords::decides)
                .map(this::asks)
                .or(() -> findings.checks(finding).stream().findFirst())
                .ifPresent(sentences::add);
        return sentences;
    }

    private String cause(Diagnosis why) {
        String words = causes.likely(why);
        return Character.toUpperCase(words.charAt(0)) + words.substring(1) + ".";
    }

    private String asks(Check check) {
        String asks = causes.asks(check);
        return check.toll() == Check.Toll.LOOK ? asks : phrases.say("short.isolate", asks);
    }
}
