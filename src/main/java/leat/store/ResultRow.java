package leat.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.OptionalLong;

/** One row of an answer, read from left to right. Not to be kept beyond the row. */
final class ResultRow {

    private final ResultSet answer;
    private final SqlTrouble trouble;
    private int column;

    ResultRow(ResultSet answer, SqlTrouble trouble) {
        this.answer = answer;
        this.trouble = trouble;
    }

    boolean next() throws SQLException {
        column = 0;
        return answer.next();
    }

    ResultRow skip(int columns) {
        column += columns;
        return this;
    }

    /** 0 for NULL. */
    long number() {
        return get(answer::getLong);
    }

    OptionalLong maybeNumber() {
        long value = number();
        return isNull() ? OptionalLong.empty() : OptionalLong.of(value);
    }

    /** 0 for NULL. */
    double real() {
        return get(answer::getDouble);
    }

    boolean flag() {
        return number() != 0;
    }

    /** Empty text for NULL. */
    String text() {
        Object stored = get(answer::getObject);
        return stored == null ? "" : Text.read(stored);
    }

    <E extends Enum<E>> E word(Class<E> type) {
        return Text.constant(type, text());
    }

    byte[] bytes() {
        return get(answer::getBytes);
    }

    /** Whether the column that was read last held nothing. */
    boolean isNull() {
        try {
            return answer.wasNull();
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }

    private <T> T get(Getter<T> getter) {
        column++;
        try {
            return getter.at(column);
        } catch (SQLException e) {
            throw trouble.of(e);
        }
    }

    private interface Getter<T> {
        T at(int column) throws SQLException;
    }
}
