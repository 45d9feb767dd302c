package leat.acquire.recording;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.List;

/**
 * Local times of one zone to UTC. An hour that the clocks pass twice in autumn is first taken as
 * summer time, and as winter time once the rows would otherwise run backwards. Thread-confined.
 */
final class LocalTimes {

    private static final long SECOND = 1_000_000;

    /** Clocks are set by less than this. */
    private static final long DAY = 86_400;

    private final ZoneRules rules;
    private long calmFrom = Long.MAX_VALUE;
    private long calmUntil = Long.MIN_VALUE;
    private long calmOffset;

    LocalTimes(ZoneId zone) {
        rules = zone.getRules();
    }

    /**
     * @param localMicros what the clock on the wall shows, counted as if it stood in UTC
     * @param previous time of the row before, microseconds UTC
     */
    long toUtc(long localMicros, long previous) {
        long localSecond = Math.floorDiv(localMicros, SECOND);
        if (localSecond >= calmFrom && localSecond < calmUntil) {
            return localMicros - calmOffset * SECOND;
        }
        LocalDateTime shown = LocalDateTime.ofEpochSecond(localSecond, 0, ZoneOffset.UTC);
        List<ZoneOffset> offsets = rules.getValidOffsets(shown);
        ZoneOffset offset =
                offsets.isEmpty() ? rules.getTransition(shown).getOffsetBefore() : offsets.get(0);
        long micros = localMicros - offset.getTotalSeconds() * SECOND;
        if (offsets.size() > 1 && micros < previous) {
            return localMicros - offsets.get(1).getTotalSeconds() * SECOND;
        }
        rememberCalm(Instant.ofEpochSecond(localSecond - offset.getTotalSeconds()));
        return micros;
    }

    /**
     * Between two changes of the clocks, a day away from both, the offset need not be looked up.
     */
    private void rememberCalm(Instant instant) {
        ZoneOffsetTransition before = rules.previousTransition(instant);
        ZoneOffsetTransition after = rules.nextTransition(instant);
        calmOffset = rules.getOffset(instant).getTotalSeconds();
        calmFrom = before == null ? Long.MIN_VALUE : before.toEpochSecond() + DAY;
        calmUntil = after == null ? Long.MAX_VALUE : after.toEpochSecond() - DAY;
    }
}
