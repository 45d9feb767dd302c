package leat.config;

import java.net.URI;
import java.time.Duration;
import java.util.Optional;
import leat.tls.Trust;

/** Reads the route {@code webhook}. */
final class WebhookReader {

    private static final int SHORTEST_SECRET = 16;

    private static final Key<String> URL =
            Key.required(
                    "url",
                    Texts.WEB_URL,
                    "where the messages are posted to, https://; http:// only to this computer");
    private static final Key<Boolean> PLAIN_HTTP =
            Key.withDefault(
                    "plain_http",
                    new FlagForm(),
                    false,
                    Key.CHOICE,
                    "yes to allow http:// over the network, where anybody in between can read");
    private static final Key<Duration> TIMEOUT =
            Key.withDefault(
                    "timeout",
                    TimeForm.of(Duration.ofSeconds(1), Duration.ofMinutes(1)),
                    Duration.ofSeconds(5),
                    Key.CHOICE,
                    "how long one delivery may take before it is tried again later");

    static final Block BLOCK =
            Block.of(
                            URL,
                            Part.required(
                                    "secret",
                                    SecretReader.BLOCK,
                                    "where the secret is that signs each message, 16 characters or more"),
                            TrustReader.CA_FILE,
                            PLAIN_HTTP,
                            TIMEOUT)
                    .formerly(FormerKeys.OF_ALL_MEANS);

    private final SecretReader secrets;

    WebhookReader(SecretReader secrets) {
        this.secrets = secrets;
    }

    Optional<RouteSettings> read(String name, Optional<RouteScope> scope, Cursor at) {
        Fields fields = Fields.of(at, BLOCK);
        Optional<Secret> secret = fields.at("secret").flatMap(secrets::read);
        secret.filter(s -> s.reveal().length() < SHORTEST_SECRET)
                .ifPresent(
                        s ->
                                fields.at("secret")
                                        .orElseThrow()
                                        .wrong(
                                                "the secret that is named here is too short to"
                                                        + " sign with",
                                                SHORTEST_SECRET
                                                        + " characters or more, by chance"));
        Trust trust = secrets.trust().read(fields);
        if (scope.isEmpty() || !fields.isWhole()) {
            return Optional.empty();
        }
        Cursor urlAt = fields.at("url").orElseThrow();
        Optional<URI> url = Texts.uri(fields.the(URL));
        if (url.isEmpty()) {
            urlAt.wrong("the text that stands here is no address", Texts.WEB_URL.allowed());
            return Optional.empty();
        }
        boolean inClear = url.get().getScheme().equals("http");
        if (inClear && !fields.the(PLAIN_HTTP) && !Texts.isLoopback(url.get().getHost())) {
            urlAt.wrong(
                    "http:// would send the messages in clear over the network",
                    "https://, or plain_http: yes beside it");
        }
        return Optional.of(
                new RouteSettings.Webhook(
                        name, scope.get(), url.get(), secret, trust, fields.the(TIMEOUT)));
    }
}
