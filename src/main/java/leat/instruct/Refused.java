package leat.instruct;

import java.util.Optional;
import leat.signal.PlainText;
import leat.words.Language;
import leat.words.Phrases;
import leat.words.Saying;

/**
 * An instruction that cannot be followed. The message is one for the person who gave it: the rest
 * of a sentence in plain words, harmless to show.
 */
public final class Refused extends Exception {

    private static final long serialVersionUID = 1L;
    private static final int LONGEST = 300;

    private final transient Saying reason;
    private final transient Optional<Saying> known;
    private final boolean absent;

    private Refused(Saying reason, Optional<Saying> known, boolean absent) {
        super(said(reason, known, Phrases.in(Language.ENGLISH)), null, false, false);
        this.reason = reason;
        this.known = known;
        this.absent = absent;
    }

    private static String said(Saying reason, Optional<Saying> known, Phrases phrases) {
        return PlainText.harmless(reason.in(phrases), LONGEST)
                + known.map(words -> words.in(phrases)).orElse("");
    }

    /** The message in another language than English. */
    public String in(Phrases phrases) {
        return said(reason, known, phrases);
    }

    /** The words are wrong. */
    Refused(String key, Object... values) {
        this(Saying.of(key, values), Optional.empty(), false);
    }

    /**
     * A word is wrong where only some are right.
     *
     * @param known leat's own words for which are right, never cut
     */
    Refused(Saying reason, Saying known) {
        this(reason, Optional.of(known), false);
    }

    /** The words may be right, but what they are about is not there. */
    static Refused absent(String key, Object... values) {
        return new Refused(Saying.of(key, values), Optional.empty(), true);
    }

    /** Of what only a program asks for, which is answered in English. */
    static Refused worded(String reason) {
        return new Refused("asked.worded", reason);
    }

    /** Whether what it was about is not there, and other words are of no use. */
    public boolean isAbsent() {
        return absent;
    }
}
