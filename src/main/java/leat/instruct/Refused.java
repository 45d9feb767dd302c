package leat.instruct;

import leat.signal.PlainText;

/**
 * An instruction that cannot be followed. The message is one for the person who signed it, in plain
 * words and harmless to show.
 */
final class Refused extends Exception {

    private static final long serialVersionUID = 1L;
    private static final int LONGEST = 300;

    Refused(String reason) {
        super(PlainText.harmless(reason, LONGEST), null, false, false);
    }
}
