package leat.service;

import static java.util.Objects.requireNonNull;

import leat.config.RouteSettings;
import leat.words.Phrases;

/**
 * Where a route leads, for the person who tries it. Of a web address only the host: the rest may be
 * as good as a password. Immutable.
 */
public final class WayInWords implements RouteSettings.Teller<String> {

    private final Phrases phrases;

    public WayInWords(Phrases phrases) {
        this.phrases = requireNonNull(phrases, "phrases");
    }

    @Override
    public String log(RouteSettings.Log log) {
        return phrases.say("way.log");
    }

    @Override
    public String mqtt(RouteSettings.Mqtt mqtt) {
        return phrases.say("way.mqtt", mqtt.connection(), mqtt.topicPrefix());
    }

    @Override
    public String mail(RouteSettings.Mail mail) {
        return phrases.say(
                "way.mail", String.join(", ", mail.to()), mail.host() + ":" + mail.port());
    }

    @Override
    public String webhook(RouteSettings.Webhook webhook) {
        return phrases.say(
                "way.webhook", webhook.url().getScheme() + "://" + webhook.url().getAuthority());
    }

    @Override
    public String command(RouteSettings.Command command) {
        return phrases.say("way.command", command.run().get(0));
    }
}
