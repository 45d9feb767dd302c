package leat.config;

import java.util.Optional;
import leat.signal.Channel;
import leat.signal.Contact;
import leat.signal.Conversion;
import leat.signal.Transducer;

/** Reads one channel of a machine. */
final class ChannelReader {

    private static final Key<String> FROM =
            Key.required("from", nameOf("connection"), "name of the connection that delivers it");
    private static final Key<Boolean> INVERTED =
            Key.withDefault(
                    "inverted",
                    new FlagForm(),
                    false,
                    Key.CHOICE,
                    "yes where the wire says 1 for off (a normally-closed contact)");

    /** A gauge pressure. */
    static final Block PRESSURE =
            Block.of(
                            FROM,
                            Part.optional(
                                    "register",
                                    PointReader.NUMBER_REGISTER,
                                    "where in a Modbus device the number is"),
                            Part.optional(
                                    "topic",
                                    PointReader.TOPIC,
                                    "where at an MQTT broker the number is"),
                            Part.optional(
                                    "loop",
                                    TransducerReader.LOOP,
                                    "where the number is a loop current: which is which; a broken"
                                            + " loop is then told from 0 pressure (NAMUR NE 43)"),
                            Part.optional(
                                    "scale",
                                    TransducerReader.SCALE,
                                    "from loop or number to pressure"),
                            TransducerReader.UNIT,
                            TransducerReader.RANGE)
                    .exactlyOneOf("register", "topic")
                    .exactlyOneOf("scale", "unit")
                    .needs("loop", "scale");

    /** A contact that is closed or open. */
    static final Block CONTACT =
            Block.of(
                            FROM,
                            Part.optional(
                                    "register",
                                    PointReader.CONTACT_REGISTER,
                                    "where in a Modbus device the contact is"),
                            Part.optional(
                                    "topic",
                                    PointReader.TOPIC,
                                    "where at an MQTT broker the contact is: 0 or 1"),
                            INVERTED)
                    .exactlyOneOf("register", "topic");

    private final Connections connections;

    ChannelReader(Connections connections) {
        this.connections = connections;
    }

    static Block block(Channel channel) {
        return channel.isPressure() ? PRESSURE : CONTACT;
    }

    /** How a setting refers to something that has a name elsewhere in the file. */
    static TextForm nameOf(String noun) {
        return new TextForm(
                "name of a " + noun, Named.NAME, "the name of a " + noun + " in this file");
    }

    Optional<ChannelSettings> read(Channel channel, Cursor at) {
        Fields fields = Fields.of(at, block(channel));
        Optional<Connection> connection =
                fields.maybe(FROM)
                        .flatMap(name -> connections.refer(fields.at("from").orElseThrow(), name));
        connection.ifPresent(c -> fitTogether(c, fields));
        Optional<Point> register =
                fields.at("register")
                        .flatMap(channel.isPressure() ? PointReader::number : PointReader::contact);
        Optional<Point> topic = fields.at("topic").flatMap(PointReader::topic);
        Optional<Point> point = register.or(() -> topic);
        Optional<? extends Conversion> conversion =
                channel.isPressure() ? transducer(fields) : contact(fields);
        if (!fields.isWhole() || point.isEmpty() || conversion.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                new ChannelSettings(channel, fields.the(FROM), point.get(), conversion.get()));
    }

    private static Optional<Transducer> transducer(Fields fields) {
        return TransducerReader.read(fields);
    }

    private static Optional<Contact> contact(Fields fields) {
        return fields.maybe(INVERTED).map(Contact::new);
    }

    /** A register is found in a Modbus device, a topic at a broker. */
    private static void fitTogether(Connection connection, Fields fields) {
        switch (connection.kind()) {
            case MODBUS_TCP -> mustNotHave(connection, fields, "topic", "register");
            case MQTT -> mustNotHave(connection, fields, "register", "topic");
            case UNCLEAR -> {}
        }
    }

    private static void mustNotHave(
            Connection connection, Fields fields, String wrong, String right) {
        fields.at(wrong)
                .ifPresent(
                        c ->
                                c.wrongKey(
                                        c.path(),
                                        connection.name()
                                                + " is "
                                                + connection.kind().words()
                                                + ", which has no "
                                                + wrong,
                                        "write " + right + ", or name another connection"));
    }
}
