package leat.alarm;

import leat.signal.Keyword;

/** Why leat itself does something to an alarm that nobody asked for. */
public enum Reason {
    /** It is graver than when it was shelved. */
    GRAVER,
    /** The time of its shelf is over. */
    TIME_OVER,
    CLOCK_SET_BACK,
    /** The longest time of a service is over. */
    NOBODY_ENDED_IT,
    /** leat started without its past and judges afresh. */
    WITHOUT_PAST;

    /** Its name among the phrases, such as {@code time-over}. */
    public String key() {
        return Keyword.of(this);
    }
}
