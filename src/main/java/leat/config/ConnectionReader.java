package leat.config;

import java.time.Duration;
import java.util.Optional;
import leat.tls.Trust;

/** Reads one entry of {@code connections}. */
final class ConnectionReader {

    private static final Key<String> HOST =
            Key.required("host", Texts.HOST, "name or address of the device or gateway");
    private static final Key<Integer> PORT =
            Key.withDefault(
                    "port",
                    NumberForm.whole(1, 65535),
                    502,
                    "registered for Modbus TCP",
                    "TCP port");
    static final Key<Duration> POLL =
            Key.withDefault(
                    "poll",
                    TimeForm.of(Duration.ofMillis(10), Duration.ofSeconds(10)),
                    Duration.ofMillis(50),
                    "own model runs, invented parameters",
                    "period between two reads of every channel");
    private static final Key<Duration> TIMEOUT =
            Key.withDefault(
                    "timeout",
                    TimeForm.of(Duration.ofMillis(50), Duration.ofSeconds(30)),
                    Duration.ofMillis(500),
                    Key.CHOICE,
                    "how long to wait for a connection and for each reply");
    private static final Key<Duration> RECONNECT_MAX =
            Key.withDefault(
                    "reconnect_max",
                    TimeForm.of(Duration.ofSeconds(1), Duration.ofMinutes(10)),
                    Duration.ofSeconds(30),
                    Key.CHOICE,
                    "longest pause between two attempts to connect");
    private static final Block MODBUS_TCP = Block.of(HOST, PORT, POLL, TIMEOUT, RECONNECT_MAX);

    private static final Key<String> URL =
            Key.required("url", Texts.BROKER_URL, "the broker, tcp:// or with TLS ssl://");
    private static final Key<String> CLIENT_ID =
            Key.required("client_id", Texts.CLIENT_ID, "MQTT client id, unique at the broker");
    private static final Key<String> USER =
            Key.optional("user", TextForm.LINE, "user name, if the broker asks for one");
    private static final Key<String> STATUS_TOPIC =
            Key.optional(
                    "status_topic",
                    Texts.TOPIC,
                    "leat's own retained online and, by last will, offline; left out, /status behind"
                            + " topic_prefix of the first route on this connection; without a route,"
                            + " none");
    private static final Key<Duration> KEEP_ALIVE =
            Key.withDefault(
                    "keep_alive",
                    TimeForm.wholeSeconds(Duration.ofSeconds(1), Duration.ofHours(1)),
                    Duration.ofSeconds(15),
                    Key.CHOICE,
                    "MQTT keep alive");
    private static final Block MQTT =
            Block.of(
                            URL,
                            CLIENT_ID,
                            USER,
                            Part.optional(
                                    "password",
                                    SecretReader.BLOCK,
                                    "where the password is, if the broker asks for one"),
                            TrustReader.CA_FILE,
                            STATUS_TOPIC,
                            KEEP_ALIVE,
                            RECONNECT_MAX)
                    .needs("password", "user");

    static final Block BLOCK =
            Block.of(
                            Part.optional(
                                    "modbus_tcp", MODBUS_TCP, "a Modbus TCP device or gateway"),
                            Part.optional("mqtt", MQTT, "an MQTT 3.1.1 broker"))
                    .exactlyOneOf("modbus_tcp", "mqtt");

    private final SecretReader secrets;

    ConnectionReader(SecretReader secrets) {
        this.secrets = secrets;
    }

    Connection read(String name, Cursor at) {
        Fields kinds = Fields.of(at, BLOCK);
        Optional<Cursor> modbus = kinds.at("modbus_tcp");
        Optional<Cursor> mqtt = kinds.at("mqtt");
        if (modbus.isPresent() == mqtt.isPresent()) {
            return new Connection(name, at, Connection.Protocol.UNCLEAR, Optional.empty());
        }
        if (modbus.isPresent()) {
            return new Connection(
                    name, at, Connection.Protocol.MODBUS_TCP, modbusTcp(name, modbus.get()));
        }
        return new Connection(name, at, Connection.Protocol.MQTT, mqtt(name, mqtt.get()));
    }

    private static Optional<ConnectionSettings> modbusTcp(String name, Cursor at) {
        Fields fields = Fields.of(at, MODBUS_TCP);
        if (!fields.isWhole()) {
            return Optional.empty();
        }
        return Optional.of(
                new ConnectionSettings.ModbusTcp(
                        name,
                        fields.the(HOST),
                        fields.the(PORT),
                        fields.the(POLL),
                        fields.the(TIMEOUT),
                        fields.the(RECONNECT_MAX)));
    }

    private Optional<ConnectionSettings> mqtt(String name, Cursor at) {
        Fields fields = Fields.of(at, MQTT);
        Optional<Secret> password = fields.at("password").flatMap(secrets::read);
        Trust trust = secrets.trust().read(fields);
        if (!fields.isWhole()) {
            return Optional.empty();
        }
        return Optional.of(
                new ConnectionSettings.Mqtt(
                        name,
                        fields.the(URL),
                        fields.the(CLIENT_ID),
                        fields.maybe(USER),
                        password,
                        trust,
                        fields.maybe(STATUS_TOPIC),
                        fields.the(KEEP_ALIVE),
                        fields.the(RECONNECT_MAX)));
    }
}
