package leat.wire;

/**
 * What kind of value follows in the bytes. The ordinal is what is written, so the order stays and
 * new ones are added at the end.
 */
enum Tag {
    FALSE,
    TRUE,
    /** An optional without a value. */
    NONE,
    /** A zigzag varint. */
    WHOLE,
    /** The eight bytes of a double, big-endian. */
    REAL,
    /** A double that is a whole number, as a zigzag varint. */
    WHOLE_REAL,
    /** A varint of twice the length, plus 1 when the chars take two bytes each, and the chars. */
    TEXT,
    /** A varint: the number of a name in the table. */
    NAME,
    /** A block of fields: each the number of its name, and a value. */
    FIELDS,
    /** A block: the number of a record's name, and its fields. */
    KIND,
    /** A block of values. */
    LIST,
    /** A block of keys, each with its value. */
    MAP,
    /** A block of zigzag varints: the first number, then how each step differs from the last. */
    WHOLES,
    /** A block of doubles, eight bytes each. */
    REALS;

    private static final Tag[] ALL = values();

    static Tag of(int code) {
        if (code < 0 || code >= ALL.length) {
            throw new IllegalArgumentException("state is damaged: no value has the tag " + code);
        }
        return ALL[code];
    }
}
