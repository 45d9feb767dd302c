package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import leat.config.Site;
import leat.signal.PlainText;
import leat.words.CauseWords;
import leat.words.FaultWords;
import leat.words.FindingWords;
import leat.words.Numbers;
import leat.words.Phrases;

/**
 * How a site's messages are said: its name, language, unit and time zone. Immutable.
 *
 * @param site the site's name, harmless
 * @param phrases in the site's language
 * @param numbers in the site's unit and zone
 * @param findings both for what the rules found
 * @param causes both for why
 */
record Voice(
        String site, Phrases phrases, Numbers numbers, FindingWords findings, CauseWords causes) {

    /** Longest name of a site or a person that is said. */
    static final int LONGEST_NAME = 80;

    Voice {
        requireNonNull(site, "site");
        requireNonNull(phrases, "phrases");
        requireNonNull(numbers, "numbers");
        requireNonNull(findings, "findings");
        requireNonNull(causes, "causes");
    }

    static Voice of(Site site) {
        Phrases phrases = Phrases.in(site.language());
        Numbers numbers = new Numbers(site.language(), site.shownIn(), site.zone());
        return new Voice(
                PlainText.harmless(site.name(), LONGEST_NAME),
                phrases,
                numbers,
                new FindingWords(phrases, numbers),
                new CauseWords(phrases, numbers));
    }

    String say(String key, Object... values) {
        return phrases.say(key, values);
    }

    /** What a route or the disk reports of itself, harmless. */
    String reported(String words, int longest) {
        return PlainText.harmless(new FaultWords(phrases).of(words), longest);
    }

    /** ISO 8601 in UTC, for programs. */
    static String utc(long micros) {
        return instant(micros).toString();
    }

    static Instant instant(long micros) {
        return Instant.EPOCH.plus(micros, ChronoUnit.MICROS);
    }
}
