package leat.config;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads {@code instructions}: who may give leat instructions by MQTT, and where. */
final class InstructionReader {

    /** RFC 2104, section 3: a key shorter than the hash, here 32 bytes, is discouraged. */
    private static final int SHORTEST_TOKEN = 32;

    private static final Key<String> CONNECTION =
            Key.required(
                    "connection",
                    ChannelReader.nameOf("connection"),
                    "name of the MQTT connection, which must have user and password");
    private static final Key<String> TOPIC =
            Key.required("topic", Texts.TOPIC, "where signed instructions come");
    private static final Key<String> REPLY_TOPIC =
            Key.optional(
                    "reply_topic",
                    Texts.TOPIC,
                    "where leat answers; left out, topic with /reply behind it");
    private static final Key<Duration> WINDOW =
            Key.withDefault(
                    "window",
                    TimeForm.wholeSeconds(Duration.ofSeconds(10), Duration.ofMinutes(10)),
                    Duration.ofMinutes(2),
                    Key.CHOICE,
                    "how far the time of a signature may be from leat's own, either way");

    private static final Block PERSON =
            Block.of(
                    Part.required(
                            "token",
                            SecretReader.BLOCK,
                            "where the secret is that this person signs with, 32 characters or"
                                    + " more"));
    private static final Named PEOPLE = new Named("person", PERSON);

    static final Block BLOCK =
            Block.of(
                    CONNECTION,
                    TOPIC,
                    REPLY_TOPIC,
                    WINDOW,
                    Part.required("people", PEOPLE, "who may give instructions, each by a name"));

    private final Connections connections;
    private final List<Machine> machines;
    private final SecretReader secrets;

    /**
     * @param machines those of the file, whose topics are taken
     */
    InstructionReader(Connections connections, List<Machine> machines, SecretReader secrets) {
        this.connections = connections;
        this.machines = List.copyOf(machines);
        this.secrets = secrets;
    }

    Optional<InstructionSettings> read(Cursor at) {
        Fields fields = Fields.of(at, BLOCK);
        List<InstructionSettings.Person> people = people(fields);
        fields.maybe(CONNECTION)
                .ifPresent(name -> mustLogIn(fields.at("connection").orElseThrow(), name));
        if (!fields.isWhole()) {
            return Optional.empty();
        }
        String topic = fields.the(TOPIC);
        String reply = fields.maybe(REPLY_TOPIC).orElse(topic + "/reply");
        Cursor topicAt = fields.at("topic").orElseThrow();
        Cursor replyAt = fields.at("reply_topic").orElse(topicAt);
        if (topic.equals(reply)) {
            replyAt.wrong("leat would hear its own answers", "another topic for the answers");
        }
        mustBeFree(topicAt, fields.the(CONNECTION), topic);
        mustBeFree(replyAt, fields.the(CONNECTION), reply);
        return Optional.of(
                new InstructionSettings(
                        fields.the(CONNECTION), topic, reply, fields.the(WINDOW), people));
    }

    /**
     * A broker that anybody may use would hand anybody's messages on, and show everybody what leat
     * answers.
     */
    private void mustLogIn(Cursor at, String name) {
        Optional<Connection> connection = connections.refer(at, name);
        if (connection.isEmpty()) {
            return;
        }
        switch (connection.get().kind()) {
            case MODBUS_TCP ->
                    at.wrong(
                            name + " is " + connection.get().kind().words(),
                            "the name of an MQTT connection");
            case MQTT -> {
                List<String> written =
                        connection.get().at().below("mqtt").children().stream()
                                .map(Cursor.Child::name)
                                .toList();
                if (!written.contains("user") || !written.contains("password")) {
                    at.wrong(
                            "leat does not log in to "
                                    + name
                                    + ": instructions come only from a broker that asks"
                                    + " everybody for a password",
                            "user and password under connections." + name + ".mqtt");
                }
            }
            case UNCLEAR -> {
                // reported where it stands
            }
        }
    }

    private void mustBeFree(Cursor at, String connection, String topic) {
        boolean isStatus =
                connections
                        .settings(connection)
                        .filter(s -> s instanceof ConnectionSettings.Mqtt)
                        .flatMap(s -> ((ConnectionSettings.Mqtt) s).statusTopic())
                        .filter(topic::equals)
                        .isPresent();
        if (isStatus) {
            at.wrong(Cursor.quote(topic) + " is leat's own status topic", "a topic of its own");
        }
        boolean isRead =
                machines.stream()
                        .flatMap(m -> m.wired().stream())
                        .map(Machine.Wired::settings)
                        .anyMatch(
                                c ->
                                        c.connection().equals(connection)
                                                && c.point() instanceof Point.Topic read
                                                && read.topic().equals(topic));
        if (isRead) {
            at.wrong(Cursor.quote(topic) + " is the topic of a channel", "a topic of its own");
        }
    }

    private List<InstructionSettings.Person> people(Fields fields) {
        List<InstructionSettings.Person> people = new ArrayList<>();
        Map<String, String> byToken = new HashMap<>();
        fields.at("people")
                .map(PEOPLE::read)
                .orElse(Map.of())
                .forEach(
                        (name, entry) -> {
                            Fields person = Fields.of(entry, PERSON);
                            Optional<Secret> token = person.at("token").flatMap(secrets::read);
                            token.ifPresent(
                                    t ->
                                            check(
                                                    name,
                                                    person.at("token").orElseThrow(),
                                                    t.reveal(),
                                                    byToken));
                            people.add(new InstructionSettings.Person(name, token));
                        });
        return people;
    }

    private static void check(String name, Cursor at, String token, Map<String, String> byToken) {
        if (token.length() < SHORTEST_TOKEN) {
            at.wrong(
                    "the token that is named here is too short to sign with",
                    SHORTEST_TOKEN + " characters or more, by chance: openssl rand -hex 32");
        }
        String first = byToken.putIfAbsent(token, name);
        if (first != null) {
            at.wrong(
                    "is the token of " + first + " too: each could sign as the other",
                    "each person a token of their own");
        }
    }
}
