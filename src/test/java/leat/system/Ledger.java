package leat.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
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
     * @param foldedInto id of the message that tells it; empty where it is told by itself
     */
    record Owed(
            long number,
            String id,
            String route,
            String alarmId,
            Grade grade,
            String topic,
            String json,
            boolean delivered,
            String foldedInto) {

        boolean isFolded() {
            return !foldedInto.isEmpty();
        }

        /** Whether its receiver is still to get it, by itself. */
        boolean isDue() {
            return !delivered && !isFolded();
        }

        /** Whether it is about one change of an alarm, not about many. */
        boolean isOfAnAlarm() {
            return !alarmId.isEmpty();
        }

        /** The same once it is marked as delivered. */
        Owed marked() {
            return new Owed(number, id, route, alarmId, grade, topic, json, true, foldedInto);
        }
    }

    /**
     * One change of an alarm.
     *
     * @param isOver whether it was back to normal then, and acknowledged
     */
    record Event(String id, String alarmId, Grade grade, String event, boolean isOver) {}

    /** Everything ever owed to a route, in order. */
    List<Owed> owed(String route) {
        return owedWhere("route = '" + route + "'");
    }

    /** Everything ever owed to anybody, in order. */
    List<Owed> owed() {
        return owedWhere("TRUE");
    }

    /** Whether this message to this route is committed. */
    boolean holds(String route, String id) {
        return !owedWhere("route = '" + route + "' AND message_id = '" + id + "'").isEmpty();
    }

    private List<Owed> owedWhere(String condition) {
        return rows(
                "SELECT number, message_id, route, alarm_id, grade, topic, json, delivered_us,"
                        + " coalesce(folded_into, '')"
                        + " FROM outbox WHERE "
                        + condition
                        + " ORDER BY number",
                row ->
                        new Owed(
                                row.getLong(1),
                                row.getString(2),
                                row.getString(3),
                                row.getString(4),
                                grade(row.getString(5)),
                                row.getString(6),
                                row.getString(7),
                                row.getObject(8) != null,
                                row.getString(9)));
    }

    /** Messages that a route still owes. */
    long due(String route) {
        return owed(route).stream().filter(Owed::isDue).count();
    }

    /** Every change of every alarm of a machine, in the order in which they came about. */
    List<Event> events(String machine) {
        return rows(
                "SELECT e.alarm_id || '/' || e.revision, e.alarm_id, e.grade, e.event,"
                        + " e.to_state"
                        + " FROM alarm_event e JOIN machine m ON m.id = e.machine WHERE m.name = '"
                        + machine
                        + "' ORDER BY e.seq, e.nth",
                row ->
                        new Event(
                                row.getString(1),
                                row.getString(2),
                                grade(row.getString(3)),
                                row.getString(4),
                                row.getString(5).equals("normal")));
    }

    /** Their names, in the order in which they came. */
    List<String> machines() {
        try (StoreReader reader = reader()) {
            return reader.machines();
        }
    }

    /** Event time of the last second that is committed, microseconds UTC; last by sequence. */
    long lastTickMicros() {
        return rows(
                        "SELECT max(at_us) FROM (SELECT at_us, max(seq) FROM input"
                                + " WHERE kind = 100 GROUP BY machine)",
                        row -> row.getLong(1))
                .get(0);
    }

    /** How many different seconds are committed. */
    long seconds() {
        return rows(
                        "SELECT count(DISTINCT at_us) FROM input WHERE kind = 100",
                        row -> row.getLong(1))
                .get(0);
    }

    /** How many of them owed somebody a message. */
    long tellingSeconds() {
        return rows(
                        "SELECT count(DISTINCT at_us) FROM input WHERE kind = 100"
                                + " AND at_us IN (SELECT at_us FROM outbox)",
                        row -> row.getLong(1))
                .get(0);
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

    /** Moves everything from the write-ahead log into the database and leaves the log empty. */
    void cutLog() throws SQLException {
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(5_000);
        try (Connection connection = config.createConnection("jdbc:sqlite:" + database);
                Statement statement = connection.createStatement();
                ResultSet row = statement.executeQuery("PRAGMA wal_checkpoint(TRUNCATE)")) {
            assertThat(row.getInt(1)).as("held up").isZero();
        }
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

    private Connection connect() throws SQLException {
        SQLiteConfig config = new SQLiteConfig();
        config.setReadOnly(true);
        config.setBusyTimeout(5_000);
        return config.createConnection("jdbc:sqlite:" + database);
    }

    private <T> List<T> rows(String sql, Reading<T> reading) {
        List<T> rows = new ArrayList<>();
        try (Connection connection = connect();
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

    /** Looks for new messages with one connection that stays open, as often as one likes. */
    Lookout lookOut() throws SQLException {
        return new Lookout(connect());
    }

    /** Confined to one thread. */
    static final class Lookout implements AutoCloseable {

        private final Connection connection;
        private final PreparedStatement newest;

        private Lookout(Connection connection) throws SQLException {
            this.connection = connection;
            this.newest = connection.prepareStatement("SELECT max(number) FROM outbox");
        }

        /** Number of the newest message that is committed; 0 when there is none. */
        long newest() throws SQLException {
            try (ResultSet row = newest.executeQuery()) {
                return row.getLong(1);
            }
        }

        @Override
        public void close() throws SQLException {
            connection.close();
        }
    }
}
