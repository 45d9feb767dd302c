package leat.day;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.sqlite.SQLiteConfig;

/**
 * The outbox as anybody sees it who opens the database for reading: over a connection of its own,
 * which shows what is committed and nothing else. Thread-safe.
 */
final class Books implements AutoCloseable {

    private static final String COLUMNS =
            "SELECT number, message_id, route, kind, at_us, text, json, delivered_us,"
                    + " coalesce(given_up_because, ''), coalesce(folded_into, '') FROM outbox ";

    private final Path database;
    private Optional<Connection> open = Optional.empty();

    /** Opens nothing yet. */
    Books(Path database) {
        this.database = database;
    }

    /**
     * A message that is or was owed.
     *
     * @param atMicros event time of what it tells
     * @param deliveredMicros event time of its delivery; 0 while it is not delivered
     * @param because why it was given up; empty when it was not
     * @param foldedInto id of the message that tells it; empty where it stands alone
     */
    record BookedMessage(
            long number,
            String id,
            String route,
            String kind,
            long atMicros,
            String text,
            String json,
            long deliveredMicros,
            String because,
            String foldedInto) {

        boolean isDelivered() {
            return deliveredMicros != 0;
        }

        boolean isGivenUp() {
            return !because.isEmpty();
        }
    }

    Optional<BookedMessage> row(String route, String id) {
        return rows(COLUMNS + "WHERE route = ? AND message_id = ?", route, id).stream().findAny();
    }

    /** Everything that was owed after a number, in order. */
    List<BookedMessage> after(long number) {
        return rows(COLUMNS + "WHERE number > ? ORDER BY number", number);
    }

    /** True when a route owes nothing. */
    boolean isDone(String route) {
        return rows(
                        COLUMNS
                                + "WHERE route = ? AND delivered_us IS NULL AND given_up_us IS NULL"
                                + " AND folded_into IS NULL LIMIT 1",
                        route)
                .isEmpty();
    }

    private synchronized List<BookedMessage> rows(String sql, Object... values) {
        List<BookedMessage> rows = new ArrayList<>();
        try (PreparedStatement statement = connection().prepareStatement(sql)) {
            for (int i = 0; i < values.length; i++) {
                statement.setObject(i + 1, values[i]);
            }
            try (ResultSet row = statement.executeQuery()) {
                while (row.next()) {
                    rows.add(
                            new BookedMessage(
                                    row.getLong(1),
                                    row.getString(2),
                                    row.getString(3),
                                    row.getString(4),
                                    row.getLong(5),
                                    row.getString(6),
                                    row.getString(7),
                                    row.getLong(8),
                                    row.getString(9),
                                    row.getString(10)));
                }
            }
        } catch (SQLException e) {
            throw new IllegalStateException(sql, e);
        }
        return rows;
    }

    private Connection connection() throws SQLException {
        if (open.isEmpty()) {
            SQLiteConfig config = new SQLiteConfig();
            config.setReadOnly(true);
            config.setBusyTimeout(5_000);
            open = Optional.of(config.createConnection("jdbc:sqlite:" + database));
        }
        return open.get();
    }

    @Override
    public synchronized void close() {
        try {
            if (open.isPresent()) {
                open.get().close();
            }
        } catch (SQLException e) {
            throw new IllegalStateException("closing " + database, e);
        }
    }
}
