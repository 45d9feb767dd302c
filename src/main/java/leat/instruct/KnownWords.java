package leat.instruct;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.words.Saying;

/** The words that a journal entry can be made of; each refusal names those that are allowed. */
final class KnownWords {

    private KnownWords() {}

    /** "Unknown" is none of them: what nobody found is left out. */
    static void requireCause(String found) throws Refused {
        if (Cause.byKey(found).filter(Cause.findable()::contains).isEmpty()) {
            throw new Refused(
                    Saying.of("asked.no-cause", found),
                    Saying.of("asked.known", words(Cause.findable().stream().map(Cause::key))));
        }
    }

    /**
     * @param first answers to the check that is asked for now; they are named before the others
     */
    static void requireAnswer(String answer, List<Answer> first) throws Refused {
        if (Answer.byKey(answer).isEmpty()) {
            Stream<Answer> others =
                    Arrays.stream(Answer.values()).filter(one -> !first.contains(one));
            throw new Refused(
                    Saying.of("asked.no-answer", answer),
                    first.isEmpty()
                            ? Saying.of("asked.known", words(others.map(Answer::key)))
                            : Saying.of(
                                    "asked.known.now",
                                    words(first.stream().map(Answer::key)),
                                    words(others.map(Answer::key))));
        }
    }

    private static String words(Stream<String> keys) {
        return keys.collect(Collectors.joining(", "));
    }
}
