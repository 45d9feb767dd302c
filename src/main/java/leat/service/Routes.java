package leat.service;

import static java.util.Objects.requireNonNull;

import java.util.Map;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.deliver.CommandRoute;
import leat.deliver.LogRoute;
import leat.deliver.MailRoute;
import leat.deliver.MqttRoute;
import leat.deliver.Route;
import leat.deliver.WebhookRoute;
import leat.mqtt.MqttLink;
import leat.words.Phrases;

/** Builds the route that each setting asks for. Stateless. */
final class Routes implements RouteSettings.Teller<Route> {

    private static final long MILLIS_PER_SECOND = 1_000;

    private final Site site;
    private final Map<String, MqttLink> links;

    /**
     * @param site whose messages they are
     * @param links by the name of the connection
     */
    Routes(Site site, Map<String, MqttLink> links) {
        this.site = requireNonNull(site, "site");
        this.links = Map.copyOf(links);
    }

    @Override
    public Route log(RouteSettings.Log log) {
        return new LogRoute(log.name());
    }

    @Override
    public Route mqtt(RouteSettings.Mqtt mqtt) {
        return new MqttRoute(mqtt.name(), links.get(mqtt.connection()), mqtt.topicPrefix());
    }

    @Override
    public Route mail(RouteSettings.Mail mail) {
        return new MailRoute(mail, site.name(), Phrases.in(site.language()));
    }

    @Override
    public Route webhook(RouteSettings.Webhook webhook) {
        return new WebhookRoute(webhook, () -> System.currentTimeMillis() / MILLIS_PER_SECOND);
    }

    @Override
    public Route command(RouteSettings.Command command) {
        return new CommandRoute(command, Phrases.in(site.language()));
    }
}
