package leat.store;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Deletes the oldest inputs of each machine, as {@link Store#prune} says. Thread-confined. */
final class Retention {

    /** Seconds that may go of a machine and have not yet, for want of a whole segment. */
    private final Map<Long, Long> saved = new HashMap<>();

    private record Beyond(long machine, long ticks) {}

    private record Oldest(long number, long ticks, long samples, long inputs) {}

    long prune(Db db, long passedSeconds, long keptSeconds) {
        long[] deleted = {0};
        db.inOneTransaction(
                () -> {
                    for (Beyond each : beyond(db, keptSeconds)) {
                        deleted[0] += prune(db, each, 2 * passedSeconds);
                    }
                    db.write("UPDATE machine SET idle_s = idle_s + ?").number(passedSeconds).now();
                });
        return deleted[0];
    }

    private static List<Beyond> beyond(Db db, long keptSeconds) {
        return db.list(
                """
                SELECT id, min(ticks, ticks + idle_s - ?1) FROM machine
                WHERE min(ticks, ticks + idle_s - ?1) > 0
                """,
                row -> new Beyond(row.number(), row.number()),
                keptSeconds);
    }

    private long prune(Db db, Beyond beyond, long ticks) {
        List<Oldest> oldest =
                db.list(
                        """
                        SELECT s.rowid, s.ticks, s.samples, s.last_seq - s.first_seq + 1
                        FROM segment s WHERE s.machine = ?1
                            AND s.first_seq = (SELECT min(first_seq) FROM segment WHERE machine = ?1)
                            AND s.last_seq <= (SELECT min(seq) FROM snapshot WHERE machine = ?1)
                        """,
                        row -> new Oldest(row.number(), row.number(), row.number(), row.number()),
                        beyond.machine());
        if (oldest.isEmpty()) {
            saved.remove(beyond.machine());
            return pruneTicks(db, beyond.machine(), Math.min(beyond.ticks(), ticks));
        }
        long may = saved.merge(beyond.machine(), ticks, Long::sum);
        Oldest segment = oldest.get(0);
        if (segment.ticks() > Math.min(may, beyond.ticks())) {
            return 0;
        }
        saved.put(beyond.machine(), may - segment.ticks());
        db.write("DELETE FROM segment WHERE rowid = ?").number(segment.number()).now();
        db.write(
                        "UPDATE machine SET samples = samples - ?1, ticks = ticks - ?2,"
                                + " sealed_ticks = sealed_ticks - ?2 WHERE id = ?3")
                .number(segment.samples())
                .number(segment.ticks())
                .number(beyond.machine())
                .now();
        return segment.inputs();
    }

    /** The oldest seconds, and all that was fed up to the last tick of them. */
    private static long pruneTicks(Db db, long machine, long ticks) {
        long last =
                db.number(
                        """
                        SELECT max(seq) FROM (SELECT seq FROM input WHERE machine = ?1
                            AND +kind = 100 AND seq <= (SELECT min(seq) FROM snapshot WHERE machine = ?1)
                            ORDER BY seq LIMIT ?2)
                        """,
                        machine,
                        ticks);
        String delete = "DELETE FROM input WHERE machine = ? AND seq <= ? AND ";
        long samples = db.write(delete + "kind < 100").number(machine).number(last).now();
        long gone = db.write(delete + "kind = 100").number(machine).number(last).now();
        long others = db.write(delete + "kind > 100").number(machine).number(last).now();
        db.write("UPDATE machine SET samples = samples - ?, ticks = ticks - ? WHERE id = ?")
                .number(samples)
                .number(gone)
                .number(machine)
                .now();
        return samples + gone + others;
    }
}
