package leat.bench.sensor;

import java.util.Optional;

/** What can be wrong with one transducer or its wires. */
public enum SensorFault {
    /** A wire is open: no current flows. */
    BROKEN_LOOP("broken-loop", ""),
    /** The loop is shorted to its supply: more current than any pressure gives. */
    SHORTED_LOOP("shorted-loop", ""),
    /** The counts stand still, to the bit. */
    STUCK("stuck", ""),
    /** It reads that much too high at every pressure; below 0 too low. */
    OFFSET("offset", "psi"),
    /** It reads that share of the pressure too high; below 0 too low. */
    SPAN("span", "percent");

    private final String key;
    private final String unit;

    SensorFault(String key, String unit) {
        this.key = key;
        this.unit = unit;
    }

    /** Its name in a scenario file. */
    public String key() {
        return key;
    }

    /** Unit of its size, {@code psi} or {@code percent}; empty where it is there or not. */
    public String unit() {
        return unit;
    }

    /** The fault with that name in a scenario file. */
    public static Optional<SensorFault> byKey(String key) {
        for (SensorFault fault : values()) {
            if (fault.key.equals(key)) {
                return Optional.of(fault);
            }
        }
        return Optional.empty();
    }
}
