package leat.service;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import leat.config.ConnectionSettings;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.deliver.DeliveryResult;
import leat.deliver.Route;
import leat.deliver.Trial;
import leat.deliver.Wording;
import leat.mqtt.MqttLink;
import leat.store.Message;
import leat.words.FaultWords;
import leat.words.Numbers;
import leat.words.Phrases;

/**
 * Sends one test message by one route, as the daemon would send a call, and says what happens. It
 * needs no daemon and disturbs none: it opens no database, and at a broker it is a client of its
 * own. Nothing is retained, and no alarm is touched.
 */
public final class RouteTrial {

    private static final long CONNECT_MILLIS = 6_000;
    private static final long ONCE_MORE_MILLIS = 1_500;
    private static final long LOOK_MILLIS = 50;
    private static final long BACK_MILLIS = 2_000;
    private static final double NANOS_PER_SECOND = 1e9;

    private final Site site;
    private final RouteSettings route;
    private final Message message;
    private final Phrases phrases;
    private final Consumer<String> says;

    /**
     * @param route one of the site
     * @param nowMicros the time of day, microseconds UTC
     * @param says gets each step, a line, when it is done
     */
    public RouteTrial(Site site, RouteSettings route, long nowMicros, Consumer<String> says) {
        this.site = requireNonNull(site, "site");
        this.route = requireNonNull(route, "route");
        this.message = new Wording(site).message(Trial.of(route.name(), nowMicros));
        this.phrases = Phrases.in(site.language());
        this.says = requireNonNull(says, "says");
    }

    /**
     * Tries it, within the time that the route has for one delivery; at a broker ten seconds more.
     *
     * @return whether the other side has taken the message over
     */
    public boolean run() throws InterruptedException {
        says.accept(route.name() + ": " + route.tell(new WayInWords(phrases)));
        if (route instanceof RouteSettings.Mqtt mqtt) {
            return byMqtt(mqtt);
        }
        boolean taken = deliver(Map.of());
        if (taken) {
            says.accept(phrases.say("trial.look", message.subject()));
        }
        return taken;
    }

    private boolean deliver(Map<String, MqttLink> links) {
        long begun = System.nanoTime();
        try (Route way = route.tell(new Routes(site, links))) {
            DeliveryResult result = way.deliver(message);
            says.accept(
                    result.delivered()
                            ? phrases.say("trial.accepted", secondsSince(begun), message.id())
                            : phrases.say(
                                    "trial.not-accepted",
                                    new FaultWords(phrases).of(result.reason())));
            return result.delivered();
        }
    }

    private String secondsSince(long begunNanos) {
        double seconds = (System.nanoTime() - begunNanos) / NANOS_PER_SECOND;
        return Numbers.number(site.language(), seconds, 1) + " s";
    }

    private boolean byMqtt(RouteSettings.Mqtt mqtt) throws InterruptedException {
        ConnectionSettings.Mqtt daemon = connection(mqtt.connection());
        String client = daemon.clientId() + "-test-" + ProcessHandle.current().pid();
        CountDownLatch connected = new CountDownLatch(1);
        CountDownLatch back = new CountDownLatch(1);
        try (MqttLink link = new MqttLink(daemon.asGuest(client), site.name())) {
            link.subscribe(
                    mqtt.topicPrefix() + "/" + message.topic(),
                    1,
                    (topic, payload, retained) -> {
                        if (new String(payload, UTF_8).equals(message.json())) {
                            back.countDown();
                        }
                    });
            link.onConnected(connected::countDown);
            link.start();
            if (!isUp(link, connected)) {
                says.accept(
                        phrases.say(
                                "trial.not-connected",
                                new FaultWords(phrases).of(link.health().lastFault())));
                return false;
            }
            says.accept(phrases.say("trial.connected", link.endpoint(), client));
            return deliver(Map.of(mqtt.connection(), link)) && saysWhetherItCameBack(mqtt, back);
        }
    }

    private ConnectionSettings.Mqtt connection(String name) {
        return site.connections().stream()
                .filter(c -> c.name().equals(name))
                .map(ConnectionSettings.Mqtt.class::cast)
                .findFirst()
                .orElseThrow();
    }

    /** A fault may be the first of two tries, or a topic that may not be read. */
    private static boolean isUp(MqttLink link, CountDownLatch connected)
            throws InterruptedException {
        long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(CONNECT_MILLIS);
        while (System.nanoTime() < end && link.health().faults() == 0) {
            if (connected.await(LOOK_MILLIS, TimeUnit.MILLISECONDS)) {
                return true;
            }
        }
        return connected.await(ONCE_MORE_MILLIS, TimeUnit.MILLISECONDS);
    }

    /** A broker takes what it then drops (MQTT 3.1.1), so that accepted is not yet passed on. */
    private boolean saysWhetherItCameBack(RouteSettings.Mqtt mqtt, CountDownLatch back)
            throws InterruptedException {
        says.accept(
                back.await(BACK_MILLIS, TimeUnit.MILLISECONDS)
                        ? phrases.say("trial.came-back")
                        : phrases.say("trial.not-back", mqtt.topicPrefix()));
        return true;
    }
}
