package leat.config;

import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Reads {@code register} and {@code topic}: where at its connection a channel is found. */
final class PointReader {

    private static final Key<Integer> UNIT_ID =
            Key.withDefault(
                    "unit_id", NumberForm.whole(0, 255), 1, Key.CHOICE, "Modbus unit identifier");
    private static final Key<Point.Table> TABLE_OF_NUMBERS =
            Key.required(
                    "table",
                    ChoiceForm.of(
                            List.of(Point.Table.INPUT_REGISTER, Point.Table.HOLDING_REGISTER),
                            PointReader::word),
                    "Modbus data table");
    private static final Key<Point.Table> TABLE =
            Key.required(
                    "table",
                    ChoiceForm.of(List.of(Point.Table.values()), PointReader::word),
                    "Modbus data table");
    private static final Key<Integer> ADDRESS =
            Key.required(
                    "address",
                    new AddressForm(),
                    "address on the wire, from 0: what a manual calls input register 30001 is 0");
    private static final ChoiceForm<Point.NumberType> TYPES =
            ChoiceForm.of(List.of(Point.NumberType.values()), PointReader::word);
    private static final Key<Point.NumberType> TYPE_OF_NUMBER =
            Key.required("type", TYPES, "how one or two registers make a number");
    private static final Key<Point.NumberType> TYPE =
            Key.optional(
                    "type",
                    TYPES,
                    "how one or two registers make a number; uint16 if left out; not for a coil or"
                            + " discrete_input");
    private static final Key<Point.WordOrder> WORD_ORDER =
            Key.withDefault(
                    "word_order",
                    ChoiceForm.of(List.of(Point.WordOrder.values()), Enum::name),
                    Point.WordOrder.ABCD,
                    Key.CHOICE,
                    "order on the wire of the four bytes of a 32-bit number, A the highest");

    /** A number. */
    static final Block NUMBER_REGISTER =
            Block.of(UNIT_ID, TABLE_OF_NUMBERS, ADDRESS, TYPE_OF_NUMBER, WORD_ORDER);

    /** On or off. */
    static final Block CONTACT_REGISTER = Block.of(UNIT_ID, TABLE, ADDRESS, TYPE, WORD_ORDER);

    private static final Key<String> NAME =
            Key.required("name", Texts.TOPIC, "the topic, without wildcards");
    private static final Key<Integer> QOS =
            Key.withDefault(
                    "qos", NumberForm.whole(0, 2), 1, Key.CHOICE, "MQTT quality of service");
    private static final Key<String> VALUE =
            Key.optional(
                    "value",
                    Texts.JSON_POINTER,
                    "where in a JSON payload the number is; left out, the payload is the number");
    private static final Key<String> TIME =
            Key.optional(
                    "time",
                    Texts.JSON_POINTER,
                    "where in a JSON payload its time is; left out, the time of arrival counts");
    private static final Key<Point.TimeFormat> TIME_FORMAT =
            Key.withDefault(
                    "time_format",
                    ChoiceForm.of(List.of(Point.TimeFormat.values()), PointReader::word),
                    Point.TimeFormat.ISO,
                    Key.CHOICE,
                    "how that time is written: ISO 8601 with offset, or seconds or milliseconds"
                            + " since 1970");
    private static final Key<Duration> SILENT_AFTER =
            Key.withDefault(
                    "silent_after",
                    TimeForm.of(Duration.ofMillis(100), Duration.ofHours(1)),
                    Duration.ofSeconds(5),
                    Key.CHOICE,
                    "silence after which the channel counts as lost");

    static final Block TOPIC =
            Block.of(NAME, QOS, VALUE, TIME, TIME_FORMAT, SILENT_AFTER)
                    .needs("time_format", "time");

    private PointReader() {}

    private static String word(Enum<?> choice) {
        return choice.name().toLowerCase(Locale.ROOT);
    }

    static Optional<Point> number(Cursor at) {
        Fields fields = Fields.of(at, NUMBER_REGISTER);
        if (!fields.isWhole()) {
            return Optional.empty();
        }
        return register(at, fields, fields.the(TABLE_OF_NUMBERS), fields.the(TYPE_OF_NUMBER));
    }

    static Optional<Point> contact(Cursor at) {
        Fields fields = Fields.of(at, CONTACT_REGISTER);
        if (!fields.isWhole()) {
            return Optional.empty();
        }
        Point.Table table = fields.the(TABLE);
        if (table.isBits() && fields.has("type")) {
            fields.at("type")
                    .orElseThrow()
                    .wrongKey(
                            at.join("type"),
                            "a " + word(table) + " is one bit and has no type",
                            "leave type out");
            return Optional.empty();
        }
        Point.NumberType type = fields.maybe(TYPE).orElse(Point.NumberType.UINT16);
        return register(at, fields, table, type);
    }

    private static Optional<Point> register(
            Cursor at, Fields fields, Point.Table table, Point.NumberType type) {
        Point.Register register =
                new Point.Register(
                        fields.the(UNIT_ID),
                        table,
                        fields.the(ADDRESS),
                        type,
                        fields.the(WORD_ORDER));
        if (register.address() + register.width() > AddressForm.ADDRESSES) {
            fields.at("address")
                    .orElse(at)
                    .wrong(
                            "a " + word(type) + " here runs past the last address, 65535",
                            "at most " + (AddressForm.ADDRESSES - register.width()));
            return Optional.empty();
        }
        ReferenceNumber.of(register.address())
                .filter(manual -> manual.isLike(table))
                .ifPresent(
                        manual ->
                                fields.at("address")
                                        .orElse(at)
                                        .doubtful(manual.words(), manual.meant()));
        if (register.width() == 1 && register.order() != Point.WordOrder.ABCD) {
            fields.at("word_order")
                    .orElse(at)
                    .doubtful("changes nothing for a number of 16 bits or a single bit", "");
        }
        return Optional.of(register);
    }

    static Optional<Point> topic(Cursor at) {
        Fields fields = Fields.of(at, TOPIC);
        if (!fields.isWhole()) {
            return Optional.empty();
        }
        return Optional.of(
                new Point.Topic(
                        fields.the(NAME),
                        fields.the(QOS),
                        fields.maybe(VALUE),
                        fields.maybe(TIME),
                        fields.the(TIME_FORMAT),
                        fields.the(SILENT_AFTER)));
    }
}
