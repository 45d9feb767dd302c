package leat.config;

import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** Reads one entry of {@code tell}: who is told, by what means, for what and when. */
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

    private static final Block LOG = Block.of().formerly(FormerKeys.OF_ALL_MEANS);
    private static final Block MQTT =
            Block.of(CONNECTION, TOPIC_PREFIX).formerly(FormerKeys.OF_ALL_MEANS);

    private static final Block BY =
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

    static final Block BLOCK =
            Block.of(
                            Part.required("by", BY, "by what means they are told"),
                            Part.optional("about", ScopeReader.ABOUT, "for what they are told"),
                            ScopeReader.LETS_SLEEP,
                            ScopeReader.REMINDS,
                            ScopeReader.AFTER_NOBODY_ANSWERS,
                            ScopeReader.BUNDLES_OVER,
                            ScopeReader.GOOD_MORNING,
                            ScopeReader.SMALL_MATTERS,
                            ScopeReader.TRIES_FOR)
                    .formerly(FormerKeys.OF_A_ROUTE);

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
        this.mails = new MailReader(secrets);
        this.webhooks = new WebhookReader(secrets);
        this.commands = new CommandReader(secrets.fetches());
    }

    Optional<Route> read(String name, Cursor at) {
        Fields who = Fields.of(at, BLOCK);
        Optional<Fields> by = who.at("by").map(c -> Fields.of(c, BY));
        Optional<RouteScope> scope = scopes.read(who, by.flatMap(RouteReader::means));
        return by.flatMap(means -> settings(name, scope, means))
                .map(settings -> new Route(settings, at));
    }

    /** The first that is there; more than one is reported elsewhere. */
    private static Optional<String> means(Fields by) {
        return BY.names().stream().filter(by::has).findFirst();
    }

    private Optional<RouteSettings> settings(
            String name, Optional<RouteScope> scope, Fields means) {
        return Stream.of(
                        means.at("log").flatMap(c -> log(name, scope, c)),
                        means.at("mqtt").flatMap(c -> mqtt(name, scope, c)),
                        means.at("mail").flatMap(c -> mails.read(name, scope, c)),
                        means.at("webhook").flatMap(c -> webhooks.read(name, scope, c)),
                        means.at("command").flatMap(c -> commands.read(name, scope, c)))
                .flatMap(Optional::stream)
                .findFirst();
    }

    private static Optional<RouteSettings> log(String name, Optional<RouteScope> scope, Cursor at) {
        Fields fields = Fields.of(at, LOG);
        return scope.filter(s -> fields.isWhole()).map(s -> new RouteSettings.Log(name, s));
    }

    private Optional<RouteSettings> mqtt(String name, Optional<RouteScope> scope, Cursor at) {
        Fields fields = Fields.of(at, MQTT);
        fields.maybe(CONNECTION)
                .ifPresent(target -> mustBeBroker(fields.at("connection").orElseThrow(), target));
        return scope.filter(s -> fields.isWhole())
                .map(
                        s ->
                                new RouteSettings.Mqtt(
                                        name, s, fields.the(CONNECTION), fields.the(TOPIC_PREFIX)));
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
