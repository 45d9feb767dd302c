package leat.day;

import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import leat.interop.Mosquitto;
import leat.interop.Passwords;
import leat.mqtt.Cable;
import leat.tls.Certificates;

/**
 * Debian's mosquitto with TLS and passwords, a cable to it, and mosquitto_sub in the office, which
 * listens to the stream of events. What the broker has taken while nobody listened would be lost
 * for the office, so leat's cable is plugged in only when it does.
 */
final class BrokerPart implements Part {

    static final String CONNECTION = "hall";

    /** Where each message goes too, as the state of its alarm or as a notice. */
    static final String STATES = "broker, state";

    private static final String ALL = "leat/boatyard/#";
    private static final String EVENTS = "leat/boatyard/event";
    private static final String STATUS = "leat/boatyard/status";
    private static final String PROBE = "office/probe";

    /** Of the 5 s that leat waits for an acknowledgement; each message takes two. */
    private static final Duration SLOW = Duration.ofMillis(900);

    /** Bytes, enough to log in and for no message: the broker hangs up on who sends one. */
    private static final String NO_ROOM = "max_packet_size 400";

    private static final ObjectMapper JSON = new ObjectMapper();

    private final Arrivals arrivals;
    private final Certificates certificates;
    private final Shown shown;
    private final Path everybody;
    private final Path withoutLeat;
    private final Mosquitto broker;
    private final Cable cable;
    private final AtomicBoolean probed = new AtomicBoolean();
    private Process office;

    BrokerPart(Path folder, Certificates certificates, Shown shown, Arrivals arrivals)
            throws Exception {
        this.arrivals = arrivals;
        this.certificates = certificates;
        this.shown = shown;
        everybody = Passwords.of(folder.resolve("everybody"), "leat", "office");
        withoutLeat = Passwords.of(folder.resolve("without-leat"), "office");
        broker = new Mosquitto(folder);
        cable = new Cable(broker.port());
        start(shown.good(), everybody);
        openOffice();
    }

    private void start(Certificates.Server certificate, Path passwords, String... more)
            throws IOException {
        List<String> settings = new ArrayList<>(List.of(more));
        settings.add("certfile " + certificate.certificate());
        settings.add("keyfile " + certificate.key());
        settings.add("allow_anonymous false");
        settings.add("password_file " + passwords);
        broker.startWith(settings.toArray(String[]::new));
    }

    private String[] login() {
        return new String[] {
            "--cafile", certificates.caFile().toString(), "-u", "office", "-P", "invented"
        };
    }

    private void openOffice() throws Exception {
        probed.set(false);
        office = listen();
        await().dontCatchUncaughtExceptions()
                .pollInterval(Duration.ofMillis(30))
                .until(
                        () -> {
                            broker.publish(PROBE, "?", login());
                            return probed.get();
                        });
    }

    private Process listen() throws IOException {
        return broker.listen(this::heard, List.of(ALL, PROBE), login());
    }

    /** What is retained has been heard before. */
    private void heard(String line) {
        String[] words = line.split(" ", 3);
        if (words[1].equals(PROBE)) {
            probed.set(true);
        } else if (words[0].equals("0") && !words[1].equals(STATUS)) {
            String json = words[2];
            arrivals.came(
                    words[1].equals(EVENTS) ? route() : STATES,
                    route(),
                    id(json),
                    row -> row.json().equals(json));
        }
    }

    private static String id(String json) {
        try {
            return JSON.readTree(json).get("id").asText();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What stands under the connection's name in {@code site.yaml}. */
    String connectionYaml() {
        return "mqtt: { url: 'ssl://127.0.0.1:"
                + cable.port()
                + "', client_id: leat, user: leat, password: { env: BROKER }, ca_file: '"
                + certificates.caFile()
                + "', keep_alive: 5 s, reconnect_max: 1 s }";
    }

    @Override
    public String route() {
        return "broker";
    }

    @Override
    public String yaml() {
        return "mqtt: { connection: " + CONNECTION + ", topic_prefix: leat/boatyard }";
    }

    @Override
    public List<Spell> spells() {
        return List.of(
                new Spell(Ailment.KILLED, Duration.ofMillis(1200), "connection refused"),
                new Spell(Ailment.HUNG, Duration.ofMillis(5200), "", "no answer within 5.0 s"),
                new Spell(Ailment.SLOW, Duration.ofMillis(2400), ""),
                new Spell(Ailment.REFUSING, Duration.ofMillis(1200), "not authorized"),
                new Spell(
                        Ailment.FULL,
                        Duration.ofMillis(1200),
                        "closed the connection|connection lost"),
                new Spell(
                        Ailment.CERTIFICATE,
                        Duration.ofMillis(2000),
                        "has expired",
                        "another host name"));
    }

    @Override
    public void begin(Ailment trouble) throws Exception {
        switch (trouble) {
            case KILLED -> kill();
            case HUNG -> cable.setMute(true);
            case SLOW -> cable.setDelay(SLOW);
            case REFUSING -> comeBackAs(shown.good(), withoutLeat);
            case FULL -> comeBackAs(shown.good(), everybody, NO_ROOM);
            case CERTIFICATE -> comeBackAs(shown.expired(), everybody);
            case REFUSING_FOR_GOOD -> throw new IllegalArgumentException("it never does");
        }
    }

    @Override
    public void turn(Ailment trouble) throws Exception {
        if (trouble == Ailment.CERTIFICATE) {
            comeBackAs(shown.elsewhere(), everybody);
        }
    }

    @Override
    public void end(Ailment trouble) throws Exception {
        switch (trouble) {
            case HUNG -> {
                cable.setMute(false);
                cable.cut(); // what was swallowed has torn every talk
            }
            case SLOW -> cable.setDelay(Duration.ZERO);
            case KILLED -> {
                start(shown.good(), everybody);
                openOffice();
                cable.plugIn();
            }
            case REFUSING, FULL, CERTIFICATE -> {
                kill();
                start(shown.good(), everybody);
                openOffice();
                cable.plugIn();
            }
            case REFUSING_FOR_GOOD -> throw new IllegalArgumentException("it never does");
        }
    }

    private void kill() throws Exception {
        cable.unplug();
        office.destroyForcibly().waitFor();
        broker.kill();
    }

    private void comeBackAs(Certificates.Server certificate, Path passwords, String... more)
            throws Exception {
        kill();
        start(certificate, passwords, more);
        cable.plugIn();
    }

    @Override
    public void close() throws IOException {
        cable.close();
        office.destroyForcibly();
        broker.close();
    }
}
