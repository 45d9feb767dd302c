package leat.service;

import leat.config.RouteSettings;

/**
 * Where a route leads, for the person who tries it. Of a web address only the host: the rest may be
 * as good as a password. Stateless.
 */
public final class WayInWords implements RouteSettings.Teller<String> {

    @Override
    public String log(RouteSettings.Log log) {
        return "log, the standard error of the program";
    }

    @Override
    public String mqtt(RouteSettings.Mqtt mqtt) {
        return "mqtt, connection " + mqtt.connection() + ", topics " + mqtt.topicPrefix() + "/...";
    }

    @Override
    public String mail(RouteSettings.Mail mail) {
        return "mail to "
                + String.join(", ", mail.to())
                + ", by "
                + mail.host()
                + ":"
                + mail.port();
    }

    @Override
    public String webhook(RouteSettings.Webhook webhook) {
        return "webhook at " + webhook.url().getScheme() + "://" + webhook.url().getAuthority();
    }

    @Override
    public String command(RouteSettings.Command command) {
        return "command " + command.run().get(0);
    }
}
