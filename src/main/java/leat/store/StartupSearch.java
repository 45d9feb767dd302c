package leat.store;

/**
 * A {@link StartupQuery} in SQL, behind a selection from startups {@code s} and machines {@code m}.
 */
final class StartupSearch {

    /**
     * The last start before each coming or worsening, since it was last acknowledged or normal, of
     * an alarm that waits to be acknowledged; of one that was active as a hold ended also the last
     * start before that. A hold does not end the waiting.
     */
    private static final String RUNS_THAT_WAIT =
            """
            SELECT e.machine, (SELECT max(n.started_us) FROM startup n
                               WHERE n.machine = e.machine AND n.started_us <= e.at_us)
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
            " WHERE s.started_us >= ? AND s.started_us < ? AND (? OR m.name = ?)"
                    + " AND (? OR s.verdict NOT IN ('good', 'not-judged'))"
                    + " AND (? OR (s.machine, s.started_us) IN ("
                    + RUNS_THAT_WAIT
                    + "))";

    private StartupSearch() {}

    /** Which rows, in which order, and how many. */
    static String sql(StartupQuery query) {
        String order =
                switch (query.order()) {
                    case NEWEST -> "s.started_us DESC, s.machine, s.seq DESC";
                    case SLOWEST ->
                            "s.verdict = 'not-risen' DESC, (SELECT f.value FROM startup_figure f"
                                    + " WHERE f.machine = s.machine AND f.seq = s.seq"
                                    + " AND f.nth = s.nth AND f.measurand = 'rise_s')"
                                    + " DESC NULLS LAST,"
                                    + " s.started_us DESC, s.machine";
                };
        return FOUND + " ORDER BY " + order + " LIMIT ?";
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
