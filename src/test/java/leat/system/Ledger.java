package leat.system;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import leat.rule.Grade;
import leat.store.Run;
import leat.store.StoreReader;
import org.sqlite.SQLiteConfig;

/** What the store says beyond what its reader hands out: every message ever owed, sound or not. */
final class Ledger {

    private final Path database;

    Ledger(Path database) {
        this.database = database;
    }

    /**
     * One row of the outbox.
     *
     * @param number in the order in which it was owed
     * @param id of the message
     */
    record Owed(
            long number,
            String id,
            String route,
            String alarmId,
            Grade grade,
            String topic,
            String json,
            boolean delivered) {}

    /** One change of an alarm. */
    record Event(String id, String alarmId, Grade grade, String event) {}

    /** Everything ever owed to a route, in order. */
    List<Owed> owed(String route) {
        return rows(
                "SELECT number, message_id, route, alarm_id, grade, topic, json, delivered_us"
                        + " FROM outbox WHERE route = '"
                        + route
                        + "' ORDER BY number",
                row ->
                        new Owed(
                                row.getLong(1),
                                row.getString(2),
                                row.getString(3),
                                row.getString(4),
                                grade(row.getString(5)),
                                row.getString(6),
                                row.getString(7),
                                row.getObject(8) != null));
    }

    /** Messages that a route still owes. */
    long due(String route) {
        return owed(route).stream().filter(owed -> !owed.delivered()).count();
    }

    /** Every change of every alarm of a machine, in the order in which they came about. */
    List<Event> events(String machine) {
        return rows(
                "SELECT e.alarm_id || '/' || e.revision, e.alarm_id, e.grade, e.event"
                        + " FROM alarm_event e JOIN machine m ON m.id = e.machine WHERE m.name = '"
                        + machine
                        + "' ORDER BY e.seq, e.nth",
                row ->
                        new Event(
                                row.getString(1),
                                row.getString(2),
                                grade(row.getString(3)),
                                row.getString(4)));
    }

    /** Every run of the daemon, oldest first. */
    List<Run> runs() {
        try (StoreReader reader = reader()) {
            List<Run> runs = new ArrayList<>(reader.runs(Integer.MAX_VALUE));
            Collections.reverse(runs);
            return runs;
        }
    }

    /** "ok", or what SQLite finds wrong with the file. */
    List<String> integrity() {
        return rows("PRAGMA integrity_check", row -> row.getString(1));
    }

    /** Opens the reader of the program itself. */
    StoreReader reader() {
        return StoreReader.open(database);
    }

    private static Grade grade(String word) {
        return Grade.valueOf(word.toUpperCase(Locale.ROOT));
    }

    private interface Reading<T> {
        T of(ResultSet row) throws SQLException;
    }

    private <T> List<T> rows(String sql, Reading<T> reading) {
        SQLiteConfig config = new SQLiteConfig();
        config.setReadOnly(true);
        config.setBusyTimeout(5_000);
        List<T> rows = new ArrayList<>();
        try (Connection connection = config.createConnection("jdbc:sqlite:" + database);
                Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery(sql)) {
            while (row.next()) {
                rows.add(reading.of(row));
            }
        } catch (SQLException e) {
            throw new AssertionError(sql, e);
        }
        return rows;
    }
}
