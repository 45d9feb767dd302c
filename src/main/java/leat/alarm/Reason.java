package leat.alarm;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Why leat itself does something to an alarm that nobody asked for. */
public enum Reason {
    GRAVER("it is graver than when it was shelved"),
    TIME_OVER("its time was over"),
    CLOCK_SET_BACK("the clock was set back"),
    WITHOUT_PAST("leat started without its past and judges afresh");

    private final String words;

    Reason(String words) {
        this.words = words;
    }

    /** As it stands in the history. */
    public String words() {
        return words;
    }

    /** Its name among the phrases, such as {@code time-over}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The reason that stands so in the history; empty for what a person has written. */
    public static Optional<Reason> byWords(String words) {
        return Arrays.stream(values()).filter(reason -> reason.words.equals(words)).findFirst();
    }
}
