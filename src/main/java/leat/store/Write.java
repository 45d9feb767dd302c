package leat.store;

import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Types;
import java.util.OptionalLong;

/**
 * A prepared statement that is filled from left to right and used again and again. {@link
 * ResultRow} reads in the same order. Thread-confined to its connection.
 */
final class Write implements AutoCloseable {

    private static final int MOST_QUEUED = 1024;

    private final PreparedStatement statement;
    private final SqlTrouble trouble;
    private int column;
    private int queued;

    Write(PreparedStatement statement, SqlTrouble trouble) {
        this.statement = statement;
        this.trouble = trouble;
    }

    Write number(long value) {
        return put(at -> statement.setLong(at, value));
    }

    Write number(OptionalLong value) {
        return value.isPresent() ? number(value.getAsLong()) : nothing();
    }

    Write real(double value) {
        return put(at -> statement.setDouble(at, value));
    }

    Write flag(boolean value) {
        return number(value ? 1 : 0);
    }

    Write text(String value) {
        Object stored = Text.stored(value);
        return put(at -> statement.setObject(at, stored));
    }

    Write word(Enum<?> constant) {
        String word = Text.word(constant);
        return put(at -> statement.setString(at, word));
    }

    Write bytes(byte[] value) {
        return put(at -> statement.setBytes(at, value));
    }

    Write nothing() {
        return put(at -> statement.setNull(at, Types.NULL));
    }

    /** Keeps the row for {@link #flush}. */
    void queue() {
        try {
            statement.addBatch();
        } catch (SQLException e) {
            throw trouble.of(e);
        }
        column = 0;
        queued++;
        if (queued >= MOST_QUEUED) {
            flush();
        }
    }

    void flush() {
        if (queued == 0) {
            return;
        }
        queued = 0;
        try {
            statement.executeBatch();
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }

    /** Runs the statement at once; gives the number of rows changed. */
    int now() {
        column = 0;
        try {
            return statement.executeUpdate();
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }

    @Override
    public void close() {
        try {
            statement.close();
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }

    private Write put(Binding binding) {
        column++;
        try {
            binding.bind(column);
        } catch (SQLException e) {
            throw trouble.of(e);
        }
        return this;
    }

    private interface Binding {
        void bind(int column) throws SQLException;
    }
}
