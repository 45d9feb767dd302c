package leat;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

/** Text from people, files and devices at its worst, and what must never become of it. */
public final class HostileText {

    /** One kind of harm each. */
    public static final List<String> EACH =
            List.of(
                    "\"'`$(reboot); DROP TABLE alarm; --",
                    "x\r\nBcc: thief@example.org\r\n\r\nforged",
                    "x\n2026-01-05 06:00:00Z ERROR forged",
                    "</td><script>alert(1)</script> \" onload='alert(1)' &amp; <!--",
                    "\u001b[2J\u001b]0;owned\u0007 \u009b31m \u007f \b\t",
                    "\u202egnorw\u202c \u2066x\u2069 \u200f \u061c \u2028 \u2029 \u0085 \ufeff",
                    "\u0000 nothing behind it?",
                    "half \ud83d and half \udca7, whole \ud83d\udca7",
                    "=cmd|' /C calc'!A0,=1+1;+1;@SUM(A1) ;-1\t=2|=3,\"=4\", =5",
                    "a\u0301\u0302\u0303\u0304 %n %s {} ${env:HOME} ${jndi:ldap://x} \\u{202e} \\n \\");

    /** All of it at once. */
    public static final String ALL = String.join(" ", EACH);

    /** The same where half a character has been replaced. */
    public static final String WHOLE =
            ALL.replace("half \ud83d and half \udca7", "half \ufffd and half \ufffd");

    private HostileText() {}

    /** Nothing but text and line feeds: no control, no turned reading direction, nothing unseen. */
    public static void assertHarmless(String shown) {
        assertThat(shown.codePoints().filter(HostileText::isHarmful).mapToObj(Integer::toHexString))
                .as(shown)
                .isEmpty();
    }

    private static boolean isHarmful(int point) {
        return switch (Character.getType(point)) {
            case Character.CONTROL -> point != '\n';
            case Character.FORMAT,
                    Character.SURROGATE,
                    Character.PRIVATE_USE,
                    Character.UNASSIGNED,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR ->
                    true;
            default -> false;
        };
    }
}
