package leat.diagnose;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import leat.signal.Keyword;

/**
 * What can be the cause of what the gauges show. Keys are part of JSON, of the store and of the
 * journal: never rename one.
 */
public enum Cause {
    HEALTHY,
    /** Water slips back through the booster. */
    WORN_BOOSTER,
    /** The pump stands while the motor should turn it: coupling broken, motor off, wrong way. */
    NOT_TURNING,
    /** The coupling lets go and grabs again. */
    COUPLING_SLIPS,
    WEAK_SUPPLY,
    /** No water comes: the booster is starved. */
    SUPPLY_SHUT,
    /** The strainer or the supply line before the inlet gauge is clogged. */
    STRAINER_CLOGGED,
    /** The shut-off valve stops short of open. */
    VALVE_PART_OPEN,
    /** The shut-off valve opens late or slowly. */
    VALVE_SLOW,
    /** The shut-off valve lets water through at rest. */
    VALVE_LEAKS,
    /** Only a gauge behind the filters can tell. */
    FILTERS_CLOGGED,
    SET_LOW,
    SET_HIGH,
    REGULATOR_STICKING,
    AIR,
    /** Water runs out of the line behind the booster. */
    EXTERNAL_LEAK,
    INLET_OFFSET,
    BOOSTED_OFFSET,
    /** A transducer gives the same number for ever. */
    STUCK,
    /** A transducer's loop is open or shorted. */
    OPEN_LOOP,
    /** It breaks off and comes again. */
    LOOSE_LOOP,
    /** The cables or addresses of two gauges are changed over. */
    SWAPPED,
    /** A channel that has never read right: word order, type, scaling or address. */
    CONFIGURATION,
    /** What is seen fits nothing that leat knows, or too little is seen. */
    UNKNOWN;

    /** What can turn out to have been the matter: all but {@link #UNKNOWN}. */
    public static List<Cause> findable() {
        return Arrays.stream(values()).filter(cause -> cause != UNKNOWN).toList();
    }

    /** Whether it is something that a person can look for. */
    public boolean isFault() {
        return this != HEALTHY && this != UNKNOWN;
    }

    /** Whether it lies in what measures, and not in what is measured. */
    public boolean isOfSignal() {
        return switch (this) {
            case INLET_OFFSET,
                    BOOSTED_OFFSET,
                    STUCK,
                    OPEN_LOOP,
                    LOOSE_LOOP,
                    SWAPPED,
                    CONFIGURATION ->
                    true;
            case HEALTHY,
                    WORN_BOOSTER,
                    NOT_TURNING,
                    COUPLING_SLIPS,
                    WEAK_SUPPLY,
                    SUPPLY_SHUT,
                    STRAINER_CLOGGED,
                    VALVE_PART_OPEN,
                    VALVE_SLOW,
                    VALVE_LEAKS,
                    FILTERS_CLOGGED,
                    SET_LOW,
                    SET_HIGH,
                    REGULATOR_STICKING,
                    AIR,
                    EXTERNAL_LEAK,
                    UNKNOWN ->
                    false;
        };
    }

    /** Such as {@code worn-booster}. */
    public String key() {
        return Keyword.of(this);
    }

    public static Optional<Cause> byKey(String key) {
        for (Cause cause : values()) {
            if (cause.key().equals(key)) {
                return Optional.of(cause);
            }
        }
        return Optional.empty();
    }
}
