package leat.store;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import leat.rule.Grade;

/** What is asked of the rows of {@code outbox}. */
final class OutboxTable {

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
                     AND c.delivered_us IS NULL AND c.given_up_us IS NULL)
                 OR alarm_id IN (%s))
            """;

    private static final String MESSAGE =
            "message_id, route, machine, alarm_id, grade, at_us, topic, kind, event, subject, text,"
                    + " json, folded_into";

    private static final String SELECT = "SELECT number, attempts, " + MESSAGE + " FROM outbox o ";

    private OutboxTable() {}

    static List<Owed> due(Db db, String route, long afterNumber, int atMost) {
        return due(db, "", Set.of(), route, afterNumber, atMost);
    }

    static List<Owed> dueInQuietHours(
            Db db, String route, long afterNumber, int atMost, Set<String> critical) {
        String each = String.join(", ", Collections.nCopies(critical.size(), "?"));
        String only = PASSES_QUIET_HOURS.formatted(each);
        return due(db, only, critical, route, afterNumber, atMost);
    }

    private static List<Owed> due(
            Db db, String only, Set<String> alarms, String route, long afterNumber, int atMost) {
        List<Object> arguments = new ArrayList<>(List.of(route, afterNumber));
        arguments.addAll(alarms);
        arguments.add((long) atMost);
        return db.list(
                SELECT
                        + "WHERE route = ? AND "
                        + DUE
                        + " AND number > ?"
                        + only
                        + " ORDER BY number LIMIT ?",
                OutboxTable::message,
                arguments.toArray());
    }

    /** The greatest number that was ever given; none is given twice. */
    static long lastNumber(Db db) {
        return db.number("SELECT seq FROM sqlite_sequence WHERE name = 'outbox'");
    }

    /** One that is there already is left as it is. */
    static void owe(Db db, Owed owed) {
        Message message = owed.message();
        Write row =
                db.write(
                        "INSERT INTO outbox (number, "
                                + MESSAGE
                                + ") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
                                + " ON CONFLICT (message_id, route) DO NOTHING");
        row.number(owed.number())
                .text(message.id())
                .text(message.route())
                .text(message.machine())
                .text(message.alarmId())
                .word(message.grade())
                .number(message.atMicros())
                .text(message.topic())
                .word(message.kind())
                .text(message.event())
                .text(message.subject())
                .text(message.text())
                .text(message.json());
        message.foldedInto().ifPresentOrElse(row::text, row::nothing);
        row.now();
    }

    /** What is folded and has no message standing for it is owed by itself. */
    static void unfold(Db db) {
        db.write("UPDATE outbox AS o SET folded_into = NULL WHERE " + PENDING).now();
    }

    static List<String> routesOwed(Db db) {
        return db.list(
                "SELECT DISTINCT route FROM outbox WHERE "
                        + DUE
                        + " UNION SELECT DISTINCT route FROM outbox o WHERE "
                        + PENDING
                        + " ORDER BY route",
                ResultRow::text);
    }

    static List<Owed> owed(Db db, String route, int atMost) {
        List<Owed> owed = new ArrayList<>(due(db, route, 0, atMost));
        owed.addAll(
                db.list(
                        SELECT + "WHERE route = ? AND " + PENDING + " ORDER BY number LIMIT ?",
                        OutboxTable::message,
                        route,
                        (long) atMost - owed.size()));
        return owed;
    }

    private static Owed message(ResultRow row) {
        return new Owed(
                row.number(),
                row.number(),
                new Message(
                        row.text(),
                        row.text(),
                        row.text(),
                        row.text(),
                        row.word(Grade.class),
                        row.number(),
                        row.text(),
                        row.word(Message.Purpose.class),
                        row.text(),
                        row.text(),
                        row.text(),
                        row.text(),
                        Optional.of(row.text()).filter(into -> !into.isEmpty())));
    }
}
