package leat.store;

/**
 * A {@link StartupQuery} in SQL: of each the name of the machine, number, seq, config and body, the
 * body of the run that it began as it was judged last, and whether that run may last still.
 */
final class StartupSearch {

    /**
     * The last start before each coming or worsening, since it was last acknowledged or normal, of
     * an alarm that waits to be acknowledged; of one that was active as a hold ended also the last
     * start before that. A hold does not end the waiting.
     */
    private static final String RUNS_THAT_WAIT =
            """
            SELECT e.machine, (SELECT s.started_us FROM outcome s INDEXED BY startup_newest
                               WHERE s.kind = 'startup-measured' AND s.machine = e.machine
                                   AND s.started_us <= e.at_us
                               ORDER BY s.started_us DESC LIMIT 1)
            FROM alarm a JOIN alarm_event e ON e.alarm_id = a.id
                         JOIN alarm_event l ON l.alarm_id = a.id AND l.revision = a.revision
            WHERE a.state <> 'normal'
              AND l.own_state IN ('unacknowledged', 'returned-unacknowledged',
                                  'latched-unacknowledged')
              AND (e.event IN ('raised', 'worsened', 'chattering', 'repeated')
                   OR e.event IN ('unshelved', 'released', 'restored')
                      AND e.to_state = 'unacknowledged')
              AND e.revision > (SELECT coalesce(max(k.revision), 0) FROM alarm_event k
                                WHERE k.alarm_id = a.id
                                  AND (k.event = 'acknowledged' OR k.own_state = 'normal'))
            """;

    private static final String FOUND =
            "s.started_us >= ? AND s.started_us < ? AND (? OR m.name = ?)"
                    + " AND (? OR s.verdict NOT IN ('good', 'not-judged'))"
                    + " AND (? OR (s.machine, s.started_us) IN ("
                    + RUNS_THAT_WAIT
                    + "))";

    /**
     * The numbers are counted, not kept: startups stay for good, in the order of their input. From
     * one that was found to the next the index counts how many there are.
     */
    private static final String NUMBERED =
            """
            WITH found AS MATERIALIZED (
                SELECT s.machine, s.seq, s.nth, s.rowid AS place, s.started_us AS started_us,
                       s.verdict AS verdict, s.rise_s AS rise_s
                FROM outcome s INDEXED BY {index} JOIN machine m ON m.id = s.machine
                WHERE s.kind = 'startup-measured' AND {where} ORDER BY {order} LIMIT {limit}),
            spaced AS (
                SELECT *, lag(seq, 1, -1) OVER before AS after_seq,
                       lag(nth, 1, -1) OVER before AS after_nth
                FROM found WINDOW before AS (PARTITION BY machine ORDER BY seq, nth)),
            counted AS (
                SELECT *, (SELECT count(*) FROM outcome o
                           WHERE o.kind = 'startup-measured' AND o.machine = f.machine
                               AND (o.seq, o.nth) > (f.after_seq, f.after_nth)
                               AND (o.seq, o.nth) <= (f.seq, f.nth)) AS more
                FROM spaced f),
            followed AS (
                SELECT *, (SELECT n.seq FROM outcome n INDEXED BY outcome_kind
                           WHERE n.kind = 'startup-measured' AND n.machine = c.machine
                               AND (n.seq, n.nth) > (c.seq, c.nth)
                           ORDER BY n.seq, n.nth LIMIT 1) AS next_seq
                FROM counted c)
            SELECT m.name, sum(s.more) OVER (PARTITION BY s.machine ORDER BY s.seq, s.nth),
                   s.seq, o.config, o.body, coalesce((
                       SELECT r.body FROM outcome r INDEXED BY outcome_kind
                       WHERE r.kind = 'run-judged' AND r.machine = s.machine
                           AND (r.seq, r.nth) > (s.seq, s.nth)
                           AND r.seq <= coalesce(s.next_seq, 9223372036854775807)
                           AND r.body ->> '$.run.started_at_us' = s.started_us
                       ORDER BY r.seq DESC, r.nth DESC LIMIT 1), ''),
                   s.next_seq IS NULL AND NOT EXISTS (
                       SELECT 1 FROM outcome p INDEXED BY outcome_kind
                       WHERE p.kind = 'phase-changed' AND p.machine = s.machine
                           AND (p.seq, p.nth) > (s.seq, s.nth)
                           AND p.body ->> '$.change.to' IN ('rise', 'fall', 'rest'))
            FROM followed s JOIN machine m ON m.id = s.machine
            JOIN outcome o ON o.machine = s.machine AND o.seq = s.seq AND o.nth = s.nth
            ORDER BY {order}
            """;

    /** In the order of storing, whatever the clock said. */
    private static final String NEWEST = "s.place DESC";

    private static final String SLOWEST =
            "s.verdict = 'not-risen' DESC, s.rise_s DESC, s.started_us DESC, s.machine";

    /** By machine and number, counted from 0. */
    static final String BY_NUMBER =
            numbered(
                    "outcome_kind",
                    "(s.machine, s.seq, s.nth) = (SELECT o.machine, o.seq, o.nth FROM outcome o"
                            + " WHERE o.kind = 'startup-measured'"
                            + " AND o.machine = (SELECT id FROM machine WHERE name = ?)"
                            + " ORDER BY o.seq, o.nth LIMIT 1 OFFSET ?)",
                    NEWEST,
                    "1");

    /** The one of a machine that was measured last. */
    static final String LATEST =
            numbered(
                    "outcome_kind",
                    "(s.machine, s.seq, s.nth) = (SELECT o.machine, o.seq, o.nth FROM outcome o"
                            + " INDEXED BY outcome_kind"
                            + " WHERE o.kind = 'startup-measured'"
                            + " AND o.machine = (SELECT id FROM machine WHERE name = ?)"
                            + " ORDER BY o.seq DESC, o.nth DESC LIMIT 1)",
                    NEWEST,
                    "1");

    /** By machine and the time at which it began. */
    static final String BY_TIME =
            numbered("startup_newest", "m.name = ? AND s.started_us = ?", NEWEST, "1");

    /** How many, by machine and from one time on and before another. */
    static final String COUNT =
            inBodies(
                    "SELECT count(*) FROM outcome s INDEXED BY startup_newest"
                            + " JOIN machine m ON m.id = s.machine"
                            + " WHERE s.kind = 'startup-measured' AND m.name = ?"
                            + " AND s.started_us >= ? AND s.started_us < ?");

    private StartupSearch() {}

    /** What is found is looked up in the bodies, the rest in what was found there. */
    private static String numbered(String index, String where, String order, String limit) {
        int end = NUMBERED.indexOf("spaced AS");
        String found =
                NUMBERED.substring(0, end)
                        .replace("{index}", index)
                        .replace("{where}", where)
                        .replace("{order}", order)
                        .replace("{limit}", limit);
        return inBodies(found) + NUMBERED.substring(end).replace("{order}", order);
    }

    private static String inBodies(String sql) {
        return sql.replace("s.place", "s.rowid")
                .replace("s.started_us", "s.body ->> '$.startup.started_at_us'")
                .replace("s.verdict", "s.body ->> '$.verdict.outcome'")
                .replace("s.rise_s", "s.body ->> '$.startup.figures.rise_s[0]'");
    }

    /** Which rows, in which order, and how many. */
    static String sql(StartupQuery query) {
        return switch (query.order()) {
            case NEWEST ->
                    numbered(
                            query.isOfEvery() ? "startup_sequence" : "startup_newest",
                            FOUND,
                            NEWEST,
                            "?");
            case SLOWEST -> numbered("startup_slowest", FOUND, SLOWEST, "?");
        };
    }

    /** What stands for the question marks of {@link #sql}. */
    static Object[] arguments(StartupQuery query) {
        return new Object[] {
            query.sinceMicros(),
            query.untilMicros(),
            query.machine().isEmpty() ? 1L : 0L,
            query.machine().orElse(""),
            query.slow() ? 0L : 1L,
            query.unacknowledged() ? 0L : 1L,
            (long) query.atMost()
        };
    }
}
