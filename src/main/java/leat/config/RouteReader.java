package leat.config;

import java.util.List;
import java.util.Optional;
import leat.rule.Grade;

/** Reads one entry of {@code routes}. */
final class RouteReader {

    private static final Key<Grade> AT_LEAST =
            Key.withDefault(
                    "at_least",
                    ChoiceForm.of(List.of(Grade.values()), Enum::name),
                    Grade.ADVISORY,
                    Key.CHOICE,
                    "messages of a lower grade are not sent this way");
    private static final Key<String> CONNECTION =
            Key.required(
                    "connection",
                    ChannelReader.nameOf("connection"),
                    "name of the MQTT connection that carries the messages");
    private static final Key<String> TOPIC_PREFIX =
            Key.required(
                    "topic_prefix",
                    Texts.TOPIC,
                    "first levels of the topics, such as leat/boatyard");

    private static final Block LOG = Block.of(AT_LEAST);
    private static final Block MQTT = Block.of(CONNECTION, AT_LEAST, TOPIC_PREFIX);

    static final Block BLOCK =
            Block.of(
                            Part.optional("log", LOG, "the program's own log"),
                            Part.optional(
                                    "mqtt",
                                    MQTT,
                                    "an MQTT broker: retained state per alarm and a stream of events"))
                    .exactlyOneOf("log", "mqtt");

    private final Connections connections;

    RouteReader(Connections connections) {
        this.connections = connections;
    }

    Optional<Route> read(String name, Cursor at) {
        Fields kinds = Fields.of(at, BLOCK);
        Optional<RouteSettings> log = kinds.at("log").flatMap(c -> log(name, c));
        Optional<RouteSettings> mqtt = kinds.at("mqtt").flatMap(c -> mqtt(name, c));
        return log.or(() -> mqtt).map(settings -> new Route(settings, at));
    }

    private static Optional<RouteSettings> log(String name, Cursor at) {
        Fields fields = Fields.of(at, LOG);
        return fields.isWhole()
                ? Optional.of(new RouteSettings.Log(name, fields.the(AT_LEAST)))
                : Optional.empty();
    }

    private Optional<RouteSettings> mqtt(String name, Cursor at) {
        Fields fields = Fields.of(at, MQTT);
        fields.maybe(CONNECTION)
                .ifPresent(target -> mustBeBroker(fields.at("connection").orElseThrow(), target));
        if (!fields.isWhole()) {
            return Optional.empty();
        }
        return Optional.of(
                new RouteSettings.Mqtt(
                        name,
                        fields.the(AT_LEAST),
                        fields.the(CONNECTION),
                        fields.the(TOPIC_PREFIX)));
    }

    private void mustBeBroker(Cursor at, String target) {
        Optional<Connection> connection = connections.refer(at, target);
        if (connection.isPresent() && connection.get().kind() == Connection.Kind.MODBUS_TCP) {
            at.wrong(
                    target + " is " + connection.get().kind().words(),
                    "the name of an MQTT connection");
        }
    }
}
