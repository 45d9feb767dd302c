package leat.deliver;

import java.util.Optional;
import leat.rule.Grade;
import leat.store.Message;

/** Text from people and devices at its worst. */
final class Hostile {

    /** Quotes, line ends, a forged header, HTML, ANSI escapes, a turned reading direction, NUL. */
    static final String TEXT =
            "\"'`$(reboot);\r\nBcc: thief@example.org\r\n\r\n<script>alert(1)</script> &amp;"
                    + " \u001b[2J\u001b]0;owned\u0007 \u202egnorw \u2028 \u0000 end";

    private Hostile() {}

    /** Everything that a message can hold is hostile. */
    static Message message() {
        return message(TEXT, TEXT, "{\"number\":1}");
    }

    static Message message(String json) {
        return message("subject", "text", json);
    }

    static Message message(String subject, String text, String json) {
        return new Message(
                "jet-1" + TEXT + "/1",
                "hall",
                "jet-1",
                "jet-1" + TEXT,
                Grade.CRITICAL,
                Changes.RAISED,
                "jet-1/alarm/ratio",
                Message.Purpose.CALL,
                TEXT,
                subject,
                text,
                json,
                Optional.empty());
    }
}
