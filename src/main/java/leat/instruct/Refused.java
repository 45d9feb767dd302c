package leat.instruct;

import leat.signal.PlainText;

/**
 * An instruction that cannot be followed. The message is one for the person who gave it: the rest
 * of a sentence in plain words, harmless to show.
 */
public final class Refused extends Exception {

    private static final long serialVersionUID = 1L;
    private static final int LONGEST = 300;

    private final boolean absent;

    private Refused(String reason, String known, boolean absent) {
        super(PlainText.harmless(reason, LONGEST) + known, null, false, false);
        this.absent = absent;
    }

    /** The words are wrong. */
    Refused(String reason) {
        this(reason, "", false);
    }

    /**
     * A word is wrong where only some are right.
     *
     * @param known leat's own words for which are right, never cut
     */
    Refused(String reason, String known) {
        this(reason, known, false);
    }

    /** The words may be right, but what they are about is not there. */
    static Refused absent(String reason) {
        return new Refused(reason, "", true);
    }

    /** Whether what it was about is not there, and other words are of no use. */
    public boolean isAbsent() {
        return absent;
    }
}
