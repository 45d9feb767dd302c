package leat.bench.line;

import java.util.Locale;

/** Where the inlet gauge sits. */
public enum InletTap {
    /** Before the shut-off valve: at rest it shows the supply. */
    BEFORE_VALVE,
    /** Between the shut-off valve and the booster: at rest it falls with the boosted gauge. */
    BEHIND_VALVE;

    /** Its name in a scenario file, such as {@code before-valve}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
