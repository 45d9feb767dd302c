package leat.bench.line;

import java.util.Optional;

/**
 * What can be wrong with a feed line. Severity runs from 0, nothing, to 1, as bad as the bench
 * makes it; the figures are invented.
 */
public enum Fault {
    /** Severity takes that share of the pressure that the booster can add. */
    WORN_BOOSTER("worn-booster", true),
    /** The contactor is on, the pump stands: water only passes through it. */
    NOT_TURNING("not-turning", false),
    /** Severity takes that share of the supply pressure. */
    WEAK_SUPPLY("weak-supply", true),
    /** The hand valve before the inlet gauge is shut; what is trapped keeps its pressure. */
    WATER_SHUT("water-shut", false),
    /** The shut-off valve leaks: at rest the line stands at that share of the inlet pressure. */
    LEAKING_VALVE("leaking-valve", true),
    /** The regulator is set 50 psi times the severity too high. */
    SET_TOO_HIGH("set-too-high", true),
    /** Air is in the line after service; it leaves with the water that is drawn. */
    AIR("air", true);

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
