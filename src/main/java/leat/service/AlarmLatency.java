package leat.service;

import java.util.ArrayList;
import java.util.List;

/**
 * How long it took from the newest reading that an alarm rests on until couriers could tell it.
 * Keeps the latest thousand. Confined to the engine thread until the engine has ended.
 */
final class AlarmLatency {

    private static final int KEPT = 1_000;

    private final List<Long> decided = new ArrayList<>();
    private final List<Long> tookMicros = new ArrayList<>();

    /** An alarm has changed on the strength of readings up to this time. */
    void decided(long readingMicros) {
        decided.add(readingMicros);
    }

    /** Everything decided so far can be told. */
    void told(long nowMicros) {
        for (long readingMicros : decided) {
            if (tookMicros.size() == KEPT) {
                tookMicros.remove(0);
            }
            tookMicros.add(nowMicros - readingMicros);
        }
        decided.clear();
    }

    int count() {
        return tookMicros.size();
    }

    /** The share-th quantile in microseconds; 0 when there was none. */
    long quantileMicros(double share) {
        if (tookMicros.isEmpty()) {
            return 0;
        }
        List<Long> sorted = tookMicros.stream().sorted().toList();
        return sorted.get(
                (int) Math.min(sorted.size() - 1L, Math.round(share * (sorted.size() - 1))));
    }
}
