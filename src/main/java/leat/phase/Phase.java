package leat.phase;

import java.util.Locale;

/** What the feed line is doing. */
public enum Phase {
    /** A pressure is missing or BAD: nothing is judged. */
    BLIND,
    /** Water shut, booster off. */
    REST,
    /** The booster has been started and the pressure climbs. */
    RISE,
    /** The booster runs at its level. */
    STEADY,
    /** The booster has been stopped and the pressure dies away. */
    FALL;

    /** The name used in tables and messages, such as {@code rest}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** True while the booster is held to be running. */
    public boolean isRunning() {
        return this == RISE || this == STEADY;
    }
}
