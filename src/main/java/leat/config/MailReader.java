package leat.config;

import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.config.RouteSettings.MailSecurity;
import leat.tls.Trust;

/** Reads the route {@code mail}. */
final class MailReader {

    private static final int MOST_RECEIVERS = 50;

    private static final Key<String> HOST =
            Key.required("host", Texts.HOST, "name or address of the mail server");
    private static final Key<Integer> PORT =
            Key.optional(
                    "port",
                    NumberForm.whole(1, 65535),
                    "TCP port; left out, 587 with starttls, 465 with tls, 25 with plain");
    private static final Key<MailSecurity> SECURITY =
            Key.withDefault(
                    "security",
                    ChoiceForm.of(
                            List.of(MailSecurity.values()), s -> s.name().toLowerCase(Locale.ROOT)),
                    MailSecurity.STARTTLS,
                    Key.CHOICE,
                    "starttls: TLS after a greeting in clear, and nothing to a server without it;"
                            + " tls: TLS from the first byte; plain: in clear, for a relay on this"
                            + " computer");
    private static final Key<String> USER =
            Key.optional("user", TextForm.LINE, "user name, if the server asks for one");
    private static final Key<String> FROM =
            Key.required("from", Texts.MAIL_ADDRESS, "the sender's address");
    private static final Key<List<String>> TO =
            Key.required(
                    "to",
                    new ListForm<>(Texts.MAIL_ADDRESS, "addresses", MOST_RECEIVERS),
                    "the receivers' addresses");
    private static final Key<Duration> TIMEOUT =
            Key.withDefault(
                    "timeout",
                    TimeForm.of(Duration.ofSeconds(1), Duration.ofMinutes(1)),
                    Duration.ofSeconds(10),
                    Key.CHOICE,
                    "how long one delivery may take before it is tried again later");

    static final Block BLOCK =
            Block.of(
                            HOST,
                            PORT,
                            SECURITY,
                            USER,
                            Part.optional(
                                    "password",
                                    SecretReader.BLOCK,
                                    "where the password is, if the server asks for one"),
                            TrustReader.CA_FILE,
                            FROM,
                            TO,
                            TIMEOUT)
                    .needs("password", "user")
                    .needs("user", "password")
                    .formerly(FormerKeys.OF_ALL_MEANS);

    private final SecretReader secrets;

    MailReader(SecretReader secrets) {
        this.secrets = secrets;
    }

    Optional<RouteSettings> read(String name, Optional<RouteScope> scope, Cursor at) {
        Fields fields = Fields.of(at, BLOCK);
        Optional<Secret> password = fields.at("password").flatMap(secrets::read);
        Trust trust = secrets.trust().read(fields);
        if (scope.isEmpty() || !fields.isWhole()) {
            return Optional.empty();
        }
        MailSecurity security = fields.the(SECURITY);
        String host = fields.the(HOST);
        if (security == MailSecurity.PLAIN) {
            checkPlain(fields, host);
        }
        return Optional.of(
                new RouteSettings.Mail(
                        name,
                        scope.get(),
                        host,
                        fields.maybe(PORT).orElse(security.usualPort()),
                        security,
                        fields.maybe(USER),
                        password,
                        fields.the(FROM),
                        fields.the(TO),
                        trust,
                        fields.the(TIMEOUT)));
    }

    private static void checkPlain(Fields fields, String host) {
        Cursor at = fields.at("security").orElseThrow();
        if (Texts.isLoopback(host)) {
            return;
        }
        if (fields.maybe(USER).isPresent()) {
            at.wrong("plain would send the password in clear over the network", "starttls or tls");
        } else {
            at.doubtful(
                    "plain sends messages in clear over the network",
                    "right only for a relay on this computer or on a closed network");
        }
    }
}
