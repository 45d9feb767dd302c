package leat.day;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import leat.deliver.WebhookReceiver;
import leat.interop.FreePort;
import leat.tls.Certificates;

/**
 * The JDK's HTTPS server, which takes only what is signed, as src/docs/messages.md says, and not
 * old.
 */
final class HookPart implements Part {

    private static final Duration SLOW = Duration.ofMillis(900);
    private static final Duration FOR_EVER = Duration.ofDays(1);

    private final Certificates certificates;
    private final Shown shown;
    private final Arrivals arrivals;
    private final int port;
    private WebhookReceiver receiver;
    private int unsigned;

    HookPart(Certificates certificates, Shown shown, Arrivals arrivals) throws Exception {
        this.certificates = certificates;
        this.shown = shown;
        this.arrivals = arrivals;
        port = FreePort.find();
        receiver = WebhookReceiver.https(shown.good(), port);
        listen();
    }

    private void listen() {
        receiver.onTaken((id, body) -> arrivals.came(route(), id, row -> row.json().equals(body)));
    }

    @Override
    public String route() {
        return "hook";
    }

    @Override
    public String yaml() {
        return "webhook: { url: 'https://127.0.0.1:"
                + port
                + "/leat', secret: { env: HOOK }, timeout: 1.2 s, ca_file: '"
                + certificates.caFile()
                + "' }";
    }

    @Override
    public List<Spell> spells() {
        Duration brief = Duration.ofMillis(1000);
        return List.of(
                new Spell(Ailment.KILLED, brief, "connection refused"),
                new Spell(Ailment.HUNG, Duration.ofMillis(2600), "no answer"),
                new Spell(Ailment.SLOW, Duration.ofMillis(1600), ""),
                new Spell(Ailment.REFUSING, brief, "answers 403", "answers 503"),
                new Spell(Ailment.FULL, brief, "answers 507", "answers 429"),
                new Spell(Ailment.REFUSING_FOR_GOOD, brief, "answers 422"),
                new Spell(
                        Ailment.CERTIFICATE,
                        Duration.ofMillis(1400),
                        "has expired",
                        "another host name"));
    }

    @Override
    public void begin(Ailment trouble) throws Exception {
        switch (trouble) {
            case KILLED -> stop();
            case HUNG -> receiver.delay(FOR_EVER);
            case SLOW -> receiver.delay(SLOW);
            case REFUSING -> receiver.answer(403, Map.of());
            case FULL -> receiver.answer(507, Map.of());
            case REFUSING_FOR_GOOD -> receiver.answer(422, Map.of());
            case CERTIFICATE -> comeBackAs(shown.expired());
        }
    }

    @Override
    public void turn(Ailment trouble) throws Exception {
        switch (trouble) {
            case REFUSING -> receiver.answer(503, Map.of());
            case FULL -> receiver.answer(429, Map.of("Retry-After", "300"));
            case CERTIFICATE -> comeBackAs(shown.elsewhere());
            case KILLED, HUNG, SLOW, REFUSING_FOR_GOOD -> {
                // as it is
            }
        }
    }

    @Override
    public void end(Ailment trouble) throws Exception {
        switch (trouble) {
            case KILLED, HUNG, CERTIFICATE -> comeBackAs(shown.good());
            case SLOW -> receiver.delay(Duration.ZERO);
            case REFUSING, FULL, REFUSING_FOR_GOOD -> receiver.answer(204, Map.of());
        }
    }

    private void stop() {
        receiver.close();
        unsigned += receiver.unsigned();
    }

    private void comeBackAs(Certificates.Server certificate) throws Exception {
        stop();
        receiver = WebhookReceiver.https(certificate, port);
        listen();
    }

    /** Requests whose signature was not good. */
    int unsigned() {
        return unsigned + receiver.unsigned();
    }

    @Override
    public void close() throws IOException {
        receiver.close();
    }
}
