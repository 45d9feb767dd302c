package leat.bench.line;

import java.util.Locale;

/** What the spring of a regulator weighs the boosted pressure against. */
public enum RegulatorKind {
    /** The air of the room: the level stays where it is set whatever the supply does. */
    GAUGE,
    /**
     * The suction side, as the relief built into a pump does: the lift stays where it is set, and
     * the level follows the supply up and down.
     */
    DIFFERENTIAL;

    /** Its name in a scenario file. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
