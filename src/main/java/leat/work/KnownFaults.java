package leat.work;

import java.util.HashSet;
import java.util.Set;

/**
 * Remembers faults, so that each distinct one is written to the log once for as long as the program
 * runs; how often it came is in the health. For what comes and goes see {@link Trouble}.
 * Thread-safe.
 */
public final class KnownFaults {

    /** More distinct faults than this are no news any more. */
    private static final int MAX_DISTINCT = 200;

    private final Set<String> known = new HashSet<>();

    /** True the first time. */
    public synchronized boolean isNew(String fault) {
        return known.size() < MAX_DISTINCT && known.add(fault);
    }
}
