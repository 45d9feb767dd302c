package leat.config;

import java.util.Map;
import java.util.Optional;

/**
 * How one value is written: its unit and range, how it is read and how it is printed. Immutable.
 *
 * @param <T> what the value is inside leat
 */
interface Form<T> extends Shape {

    /** Reads the value; reports what is wrong with it and then returns nothing. */
    Optional<T> read(Cursor at);

    /** A value as it would be written in the file. */
    String print(T value);

    /** The unit, or the kind of value where there is no unit, as the reference table shows it. */
    String unit();

    /** Smallest value allowed as it would be written; empty where there is none. */
    default String min() {
        return "";
    }

    /** Largest value allowed as it would be written; empty where there is none. */
    default String max() {
        return "";
    }

    /** The keywords of JSON Schema that describe the value. */
    Map<String, Object> schema();

    /** A default value for JSON Schema. */
    default Object schemaValue(T value) {
        return print(value);
    }

    @Override
    default <R> R tell(Teller<R> teller) {
        return teller.form(this);
    }
}
