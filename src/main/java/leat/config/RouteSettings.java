package leat.config;

import static java.util.Objects.requireNonNull;

import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import leat.tls.Trust;

/** Where messages go. */
public sealed interface RouteSettings {

    String name();

    /** Which messages go this way. */
    RouteScope scope();

    /** Hands this route to the method that is meant for its kind. */
    <R> R tell(Teller<R> teller);

    /** Answers for each kind of route; a new kind cannot be forgotten. */
    interface Teller<R> {
        R log(Log log);

        R mqtt(Mqtt mqtt);

        R mail(Mail mail);

        R webhook(Webhook webhook);

        R command(Command command);
    }

    /**
     * The program's own log, which under a service manager is the journal of the host.
     *
     * @param name the name under {@code tell}
     * @param scope which messages
     */
    record Log(String name, RouteScope scope) implements RouteSettings {
        public Log {
            requireNonNull(name, "name");
            requireNonNull(scope, "scope");
        }

        @Override
        public <R> R tell(Teller<R> teller) {
            return teller.log(this);
        }
    }

    /**
     * An MQTT broker: retained state per alarm, and a stream of events.
     *
     * @param name the name under {@code tell}
     * @param scope which messages
     * @param connection name of an MQTT connection
     * @param topicPrefix first levels of the topics, such as {@code leat/boatyard}
     */
    record Mqtt(String name, RouteScope scope, String connection, String topicPrefix)
            implements RouteSettings {
        public Mqtt {
            requireNonNull(name, "name");
            requireNonNull(scope, "scope");
            requireNonNull(connection, "connection");
            requireNonNull(topicPrefix, "topicPrefix");
        }

        @Override
        public <R> R tell(Teller<R> teller) {
            return teller.mqtt(this);
        }
    }

    /** How a mail server is spoken to. */
    enum MailSecurity {
        /** In clear until the server has agreed to TLS; nothing is sent to one that does not. */
        STARTTLS(587),
        /** TLS from the first byte. */
        TLS(465),
        /** In clear throughout; for a relay on this computer. */
        PLAIN(25);

        private final int usualPort;

        MailSecurity(int usualPort) {
            this.usualPort = usualPort;
        }

        /** RFC 6409 (587), RFC 8314 (465), RFC 5321 (25). */
        int usualPort() {
            return usualPort;
        }
    }

    /**
     * E-mail.
     *
     * @param name the name under {@code tell}
     * @param scope which messages
     * @param host name or address of the mail server
     * @param port TCP port
     * @param security how it is spoken to
     * @param user user name, if it asks for one
     * @param password password, if it asks for one
     * @param from the sender's address
     * @param to addresses of those who get it, at least one
     * @param trust whose signature under the server's certificate counts
     * @param timeout bound for one whole delivery
     */
    record Mail(
            String name,
            RouteScope scope,
            String host,
            int port,
            MailSecurity security,
            Optional<String> user,
            Optional<Secret> password,
            String from,
            List<String> to,
            Trust trust,
            Duration timeout)
            implements RouteSettings {
        public Mail {
            requireNonNull(name, "name");
            requireNonNull(scope, "scope");
            requireNonNull(host, "host");
            requireNonNull(security, "security");
            requireNonNull(user, "user");
            requireNonNull(password, "password");
            requireNonNull(from, "from");
            to = List.copyOf(to);
            requireNonNull(trust, "trust");
            requireNonNull(timeout, "timeout");
        }

        @Override
        public <R> R tell(Teller<R> teller) {
            return teller.mail(this);
        }
    }

    /**
     * A program that takes the JSON of a message by HTTP.
     *
     * @param name the name under {@code tell}
     * @param scope which messages
     * @param url where it is posted to
     * @param secret signs each message; empty only where no secret was fetched
     * @param trust whose signature under the server's certificate counts
     * @param timeout bound for one whole delivery
     */
    record Webhook(
            String name,
            RouteScope scope,
            URI url,
            Optional<Secret> secret,
            Trust trust,
            Duration timeout)
            implements RouteSettings {
        public Webhook {
            requireNonNull(name, "name");
            requireNonNull(scope, "scope");
            requireNonNull(url, "url");
            requireNonNull(secret, "secret");
            requireNonNull(trust, "trust");
            requireNonNull(timeout, "timeout");
        }

        @Override
        public <R> R tell(Teller<R> teller) {
            return teller.webhook(this);
        }

        /** The path or query of an address may be as good as a password. */
        @Override
        public String toString() {
            return "Webhook[name=" + name + ", host=" + url.getHost() + "]";
        }
    }

    /**
     * A program on this computer.
     *
     * @param name the name under {@code tell}
     * @param scope which messages
     * @param run the program's path and its arguments, never seen by a shell
     * @param timeout after which it is ended
     */
    record Command(String name, RouteScope scope, List<String> run, Duration timeout)
            implements RouteSettings {
        public Command {
            requireNonNull(name, "name");
            requireNonNull(scope, "scope");
            run = List.copyOf(run);
            requireNonNull(timeout, "timeout");
        }

        @Override
        public <R> R tell(Teller<R> teller) {
            return teller.command(this);
        }
    }
}
