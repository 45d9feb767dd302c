package leat.acquire.modbus;

import java.util.HashSet;
import java.util.Set;

/**
 * Remembers faults, so that each distinct one is written to the log once; how often it came is in
 * the health. Thread-confined.
 */
final class KnownFaults {

    /** More distinct faults than this are no news any more. */
    private static final int MAX_DISTINCT = 200;

    private final Set<String> known = new HashSet<>();

    /** True the first time. */
    boolean isNew(String fault) {
        return known.size() < MAX_DISTINCT && known.add(fault);
    }
}
