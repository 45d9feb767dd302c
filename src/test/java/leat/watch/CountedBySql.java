package leat.watch;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The performance figures of the alarms, counted by SQL on the store and nothing of leat's own: to
 * be held against {@code AlarmHealth}. Definitions are those of ANSI/ISA-18.2-2016, 16.4, at second
 * hand. Ten-minute intervals and hours are of the clock, UTC.
 *
 * @param calls how often somebody was called
 * @param byGrade those of each grade that called, by its word
 * @param mostIn10Min the most calls in one interval
 * @param crowded10Min intervals with more than ten calls
 * @param crowdedHours hours with more than thirty calls
 * @param floods islands of intervals with five calls or more, in which one has more than ten
 * @param floodIntervals their intervals, from the first with more than ten on
 * @param chattering alarms that chattered
 * @param stale alarms that are active since more than 24 h
 * @param held alarms that are held back
 * @param topTen the ten that called most, as {@code machine.rule=calls}
 * @param messages messages delivered, by route
 * @param mostMessagesIn10Min the most of them on one route in one interval
 */
record CountedBySql(
        long calls,
        Map<String, Long> byGrade,
        long mostIn10Min,
        long crowded10Min,
        long crowdedHours,
        long floods,
        long floodIntervals,
        long chattering,
        long stale,
        long held,
        List<String> topTen,
        Map<String, Long> messages,
        long mostMessagesIn10Min) {

    private static final String CALL =
            """
            WITH call AS (
                SELECT e.at_us, e.grade, m.name || '.' || e.rule || CASE
                        WHEN e.rule LIKE 'signal%' THEN '.' || e.channel ELSE '' END AS alarm
                FROM alarm_event e JOIN machine m ON m.id = e.machine
                WHERE e.event IN ('raised', 'worsened', 'chattering')
                        AND e.to_state NOT IN ('shelved', 'suppressed', 'out-of-service')
                    OR e.event IN ('unshelved', 'released', 'restored')
                        AND e.to_state IN ('unacknowledged', 'acknowledged')),
            ten AS (SELECT at_us / 600000000 AS no, count(*) AS n FROM call GROUP BY 1),
            hour AS (SELECT at_us / 3600000000 AS no, count(*) AS n FROM call GROUP BY 1),
            busy AS (SELECT no, n, no - row_number() OVER (ORDER BY no) AS island
                FROM ten WHERE n >= 5),
            flood AS (SELECT max(no) - min(no) FILTER (WHERE n > 10) + 1 AS intervals
                FROM busy GROUP BY island HAVING max(n) > 10)
            """;

    private static final String LAST =
            """
            SELECT count(*) FROM alarm_event e
            WHERE revision = (SELECT max(revision) FROM alarm_event WHERE alarm_id = e.alarm_id)
            """;

    /**
     * @param nowMicros the end of the time that is looked at, microseconds UTC
     */
    static CountedBySql in(Path database, long nowMicros) throws SQLException {
        try (Connection store = DriverManager.getConnection("jdbc:sqlite:" + database)) {
            return new CountedBySql(
                    number(store, CALL + "SELECT count(*) FROM call"),
                    counts(store, CALL + "SELECT grade, count(*) FROM call GROUP BY 1"),
                    number(store, CALL + "SELECT coalesce(max(n), 0) FROM ten"),
                    number(store, CALL + "SELECT count(*) FROM ten WHERE n > 10"),
                    number(store, CALL + "SELECT count(*) FROM hour WHERE n > 30"),
                    number(store, CALL + "SELECT count(*) FROM flood"),
                    number(store, CALL + "SELECT coalesce(sum(intervals), 0) FROM flood"),
                    number(
                            store,
                            "SELECT count(DISTINCT alarm_id) FROM alarm_event WHERE chattering"),
                    number(
                            store,
                            LAST
                                    + " AND to_state IN ('unacknowledged', 'acknowledged')"
                                    + " AND raised_us < "
                                    + (nowMicros - 86_400_000_000L)),
                    number(
                            store,
                            LAST
                                    + " AND to_state IN ('shelved', 'suppressed',"
                                    + " 'out-of-service')"),
                    lines(
                            store,
                            CALL
                                    + "SELECT alarm || '=' || count(*) FROM call GROUP BY alarm"
                                    + " ORDER BY count(*) DESC, alarm LIMIT 10"),
                    counts(
                            store,
                            "SELECT route, count(*) FROM outbox WHERE delivered_us IS NOT NULL"
                                    + " GROUP BY 1"),
                    number(
                            store,
                            "SELECT coalesce(max(n), 0) FROM (SELECT count(*) AS n FROM outbox"
                                    + " WHERE delivered_us IS NOT NULL"
                                    + " GROUP BY route, delivered_us / 600000000)"));
        }
    }

    /** Every alarm that ever was active at one of these grades while nothing held it back. */
    static List<String> alarmsOf(Path database, String... grades) throws SQLException {
        try (Connection store = DriverManager.getConnection("jdbc:sqlite:" + database)) {
            return lines(
                    store,
                    "SELECT DISTINCT alarm_id || ' ' || grade FROM alarm_event WHERE grade IN ('"
                            + String.join("', '", grades)
                            + "') AND to_state IN ('unacknowledged', 'acknowledged')");
        }
    }

    private static long number(Connection store, String sql) throws SQLException {
        try (PreparedStatement statement = store.prepareStatement(sql);
                ResultSet answer = statement.executeQuery()) {
            return answer.getLong(1);
        }
    }

    private static Map<String, Long> counts(Connection store, String sql) throws SQLException {
        Map<String, Long> counts = new TreeMap<>();
        try (PreparedStatement statement = store.prepareStatement(sql);
                ResultSet answer = statement.executeQuery()) {
            while (answer.next()) {
                counts.put(answer.getString(1), answer.getLong(2));
            }
        }
        return counts;
    }

    private static List<String> lines(Connection store, String sql) throws SQLException {
        List<String> lines = new ArrayList<>();
        try (PreparedStatement statement = store.prepareStatement(sql);
                ResultSet answer = statement.executeQuery()) {
            while (answer.next()) {
                lines.add(answer.getString(1));
            }
        }
        return lines;
    }
}
