package leat.config;

import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** Reads one entry of {@code routes}. */
final class RouteReader {

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

    private static final Block LOG =
            Block.of(ScopeReader.AT_LEAST, ScopeReader.MACHINES, ScopeReader.ALL_IS_WELL);
    private static final Block MQTT =
            Block.of(
                    CONNECTION,
                    TOPIC_PREFIX,
                    ScopeReader.AT_LEAST,
                    ScopeReader.MACHINES,
                    ScopeReader.GIVE_UP_AFTER,
                    ScopeReader.QUIET_HOURS,
                    ScopeReader.ESCALATE_AFTER,
                    ScopeReader.REPEAT_EVERY,
                    ScopeReader.ALL_IS_WELL);

    static final Block BLOCK =
            Block.of(
                            Part.optional("log", LOG, "the program's own log"),
                            Part.optional(
                                    "mqtt",
                                    MQTT,
                                    "an MQTT broker: retained state per alarm and a stream of events"),
                            Part.optional("mail", MailReader.BLOCK, "e-mail by a mail server"),
                            Part.optional(
                                    "webhook",
                                    WebhookReader.BLOCK,
                                    "a program that takes the JSON by HTTPS"),
                            Part.optional(
                                    "command", CommandReader.BLOCK, "a program on this computer"))
                    .exactlyOneOf("log", "mqtt", "mail", "webhook", "command");

    private final Connections connections;
    private final ScopeReader scopes;
    private final MailReader mails;
    private final WebhookReader webhooks;
    private final CommandReader commands;

    /**
     * @param machines names of the machines of the file
     */
    RouteReader(Connections connections, Set<String> machines, SecretReader secrets) {
        this.connections = connections;
        this.scopes = new ScopeReader(machines);
        this.mails = new MailReader(scopes, secrets);
        this.webhooks = new WebhookReader(scopes, secrets);
        this.commands = new CommandReader(scopes, secrets.fetches());
    }

    Optional<Route> read(String name, Cursor at) {
        Fields kinds = Fields.of(at, BLOCK);
        return Stream.of(
                        kinds.at("log").flatMap(c -> log(name, c)),
                        kinds.at("mqtt").flatMap(c -> mqtt(name, c)),
                        kinds.at("mail").flatMap(c -> mails.read(name, c)),
                        kinds.at("webhook").flatMap(c -> webhooks.read(name, c)),
                        kinds.at("command").flatMap(c -> commands.read(name, c)))
                .flatMap(Optional::stream)
                .findFirst()
                .map(settings -> new Route(settings, at));
    }

    private Optional<RouteSettings> log(String name, Cursor at) {
        return scopes.read(Fields.of(at, LOG)).map(scope -> new RouteSettings.Log(name, scope));
    }

    private Optional<RouteSettings> mqtt(String name, Cursor at) {
        Fields fields = Fields.of(at, MQTT);
        fields.maybe(CONNECTION)
                .ifPresent(target -> mustBeBroker(fields.at("connection").orElseThrow(), target));
        return scopes.read(fields)
                .map(
                        scope ->
                                new RouteSettings.Mqtt(
                                        name,
                                        scope,
                                        fields.the(CONNECTION),
                                        fields.the(TOPIC_PREFIX)));
    }

    private void mustBeBroker(Cursor at, String target) {
        Optional<Connection> connection = connections.refer(at, target);
        if (connection.isPresent() && connection.get().kind() == Connection.Protocol.MODBUS_TCP) {
            at.wrong(
                    target + " is " + connection.get().kind().words(),
                    "the name of an MQTT connection");
        }
    }
}
