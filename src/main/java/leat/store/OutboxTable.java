package leat.store;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.rule.Grade;

/** What is asked of the rows of {@code outbox}. */
final class OutboxTable {

    /** The id of a message is that of the alarm, a slash, the revision, and for reminders more. */
    private static final String TOLD_OF_STANDING =
            """
            SELECT route, alarm_id, message_id, event, folded_into FROM outbox o
            WHERE alarm_id IN (SELECT id FROM alarm WHERE state <> 'normal')
                AND CAST(substr(message_id, length(alarm_id) + 2) AS INTEGER) >
                    (SELECT coalesce(max(revision), 0) FROM alarm_event e
                     WHERE e.alarm_id = o.alarm_id AND e.to_state = 'normal')
            ORDER BY number
            """;

    /** True for a message, or a folded one's stand-in, that has not reached its receiver. */
    private static final String UNSETTLED = "delivered_us IS NULL AND given_up_us IS NULL";

    private static final String DUE = UNSETTLED + " AND folded_into IS NULL";

    /** Of a row {@code o}. */
    private static final String PENDING =
            UNSETTLED
                    + " AND folded_into IS NOT NULL AND NOT EXISTS (SELECT 1 FROM outbox s"
                    + " WHERE s.message_id = o.folded_into AND s.route = o.route)";

    private static final String PASSES_QUIET_HOURS =
            """
             AND (grade = 'critical' OR EXISTS (SELECT 1 FROM outbox c
                 WHERE c.alarm_id = o.alarm_id AND c.alarm_id <> '' AND c.route = o.route
                     AND c.grade = 'critical' AND c.number > o.number
                     AND c.delivered_us IS NULL AND c.given_up_us IS NULL))
            """;

    private static final String MESSAGE =
            "number, attempts, message_id, route, machine, alarm_id, grade, at_us, topic, kind,"
                    + " event, subject, text, json";

    private OutboxTable() {}

    static List<DueMessage> due(Db db, String route, long afterNumber, int atMost) {
        return due(db, "", route, afterNumber, atMost);
    }

    static List<DueMessage> dueInQuietHours(Db db, String route, long afterNumber, int atMost) {
        return due(db, PASSES_QUIET_HOURS, route, afterNumber, atMost);
    }

    private static List<DueMessage> due(
            Db db, String only, String route, long afterNumber, int atMost) {
        return db.list(
                "SELECT "
                        + MESSAGE
                        + " FROM outbox o WHERE route = ? AND "
                        + DUE
                        + " AND number > ?"
                        + only
                        + " ORDER BY number LIMIT ?",
                OutboxTable::message,
                route,
                afterNumber,
                (long) atMost);
    }

    static List<OwedMessage> latest(Db db) {
        return db.list(
                "SELECT "
                        + MESSAGE
                        + " FROM outbox WHERE kind <> 'notice' AND folded_into IS NULL"
                        + " AND at_us >= (SELECT max(at_us) FROM outbox) - 600000000"
                        + " ORDER BY number",
                row -> message(row).message());
    }

    static List<FoldedMessage> pendingFolds(Db db) {
        return db.list(
                "SELECT folded_into, "
                        + MESSAGE
                        + " FROM outbox o WHERE "
                        + PENDING
                        + " ORDER BY number",
                row -> new FoldedMessage(row.text(), message(row).message()));
    }

    static List<StandIn> standIns(Db db) {
        return db.list(
                "SELECT DISTINCT route, folded_into FROM outbox o WHERE folded_into IS NOT NULL"
                        + " AND EXISTS (SELECT 1 FROM outbox s"
                        + " WHERE s.message_id = o.folded_into AND s.route = o.route)",
                row -> new StandIn(row.text(), row.text()));
    }

    static List<ToldMessage> toldOfStanding(Db db) {
        return db.list(
                TOLD_OF_STANDING,
                row -> {
                    Told told = new Told(row.text(), row.text());
                    String id = row.text();
                    String event = row.text();
                    String into = row.text();
                    return new ToldMessage(
                            told, id, event, into.isEmpty() ? Optional.empty() : Optional.of(into));
                });
    }

    static List<String> routesOwed(Db db) {
        return db.list(
                "SELECT DISTINCT route FROM outbox WHERE "
                        + DUE
                        + " UNION SELECT DISTINCT route FROM outbox o WHERE "
                        + PENDING
                        + " ORDER BY route",
                Row::text);
    }

    static List<DueMessage> owed(Db db, String route, int atMost) {
        List<DueMessage> owed = new ArrayList<>(due(db, route, 0, atMost));
        owed.addAll(
                db.list(
                        "SELECT "
                                + MESSAGE
                                + " FROM outbox o WHERE route = ? AND "
                                + PENDING
                                + " ORDER BY number LIMIT ?",
                        OutboxTable::message,
                        route,
                        (long) atMost - owed.size()));
        return owed;
    }

    private static DueMessage message(Row row) {
        return new DueMessage(
                row.number(),
                row.number(),
                new OwedMessage(
                        row.text(),
                        row.text(),
                        row.text(),
                        row.text(),
                        row.word(Grade.class),
                        row.number(),
                        row.text(),
                        row.word(OwedMessage.Kind.class),
                        row.text(),
                        row.text(),
                        row.text(),
                        row.text()));
    }
}
