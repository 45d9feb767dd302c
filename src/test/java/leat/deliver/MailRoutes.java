package leat.deliver;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.RouteSettings.MailSecurity;
import leat.config.Secret;
import leat.rule.Grade;
import leat.tls.Trust;
import leat.words.Language;
import leat.words.Phrases;

/** Mail routes of the invented boatyard, to servers on 127.0.0.1. */
final class MailRoutes {

    static final String USER = "leat";
    static final String PASSWORD = "invented pass word";

    private MailRoutes() {}

    static Route plain(int port, String... to) {
        return patient(Duration.ofMillis(1500), port, to);
    }

    /** Without a password, with so much time for one delivery. */
    static Route patient(Duration timeout, int port, String... to) {
        return new MailRoute(
                settings(
                        port,
                        MailSecurity.PLAIN,
                        Optional.empty(),
                        Trust.OF_THE_RUNTIME,
                        timeout,
                        to),
                "Boatyard",
                Phrases.in(Language.ENGLISH));
    }

    static Route secure(int port, MailSecurity security, String password, Trust trust) {
        return new MailRoute(
                settings(
                        port,
                        security,
                        Optional.of(new Secret(password)),
                        trust,
                        Duration.ofSeconds(10),
                        "maintenance@example.org"),
                "Boatyard",
                Phrases.in(Language.ENGLISH));
    }

    private static RouteSettings.Mail settings(
            int port,
            MailSecurity security,
            Optional<Secret> password,
            Trust trust,
            Duration timeout,
            String... to) {
        return new RouteSettings.Mail(
                "hall",
                RouteScope.from(Grade.ADVISORY),
                "127.0.0.1",
                port,
                security,
                password.map(p -> USER),
                password,
                "leat@example.org",
                List.of(to),
                trust,
                timeout);
    }
}
