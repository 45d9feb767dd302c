package leat.bench.line;

import java.util.Optional;

/**
 * What can be wrong with a feed line. Severity runs from 0, nothing, to 1, as bad as the bench
 * makes it; the figures are invented.
 */
public enum Fault {
    /**
     * Water slips back through the booster: the more, the greater the pressure it works against.
     */
    WORN_BOOSTER("worn-booster", true),
    /** The contactor is on, the pump stands: water only passes through it. */
    NOT_TURNING("not-turning", false),
    /** The coupling between motor and pump lets go and grabs again. */
    COUPLING_SLIPS("coupling-slips", true),
    /** Severity takes that share of the supply pressure. */
    WEAK_SUPPLY("weak-supply", true),
    /** The hand valve before the inlet gauge is shut; what is trapped keeps its pressure. */
    WATER_SHUT("water-shut", false),
    /** The shut-off valve leaks: at rest the line stands at that share of the inlet pressure. */
    LEAKING_VALVE("leaking-valve", true),
    /** The shut-off valve takes up to seconds to travel. */
    SLOW_VALVE("slow-valve", true),
    /** The shut-off valve stops short of open. */
    PART_OPEN_VALVE("part-open-valve", true),
    /** The strainer before the inlet gauge holds dirt. */
    CLOGGED_STRAINER("clogged-strainer", true),
    /** The filters behind the booster hold dirt: only the gauge behind them can tell. */
    CLOGGED_FILTER("clogged-filter", true),
    /** The regulator is set 50 psi times the severity too low. */
    SET_TOO_LOW("set-too-low", true),
    /** The regulator is set 50 psi times the severity too high. */
    SET_TOO_HIGH("set-too-high", true),
    /** The regulator follows only when the force on it is off by more than its friction. */
    STICKING_REGULATOR("sticking-regulator", true),
    /** Air is in the line after service; it leaves with the water that is drawn. */
    AIR("air", true),
    /** Water runs to the floor between booster and filters. */
    EXTERNAL_LEAK("external-leak", true);

    private final String key;
    private final boolean graded;

    Fault(String key, boolean graded) {
        this.key = key;
        this.graded = graded;
    }

    /** Its name in a scenario file. */
    public String key() {
        return key;
    }

    /** Whether it has a severity; the others are there or not. */
    public boolean isGraded() {
        return graded;
    }

    /** The fault with that name in a scenario file. */
    public static Optional<Fault> byKey(String key) {
        for (Fault fault : values()) {
            if (fault.key.equals(key)) {
                return Optional.of(fault);
            }
        }
        return Optional.empty();
    }
}
