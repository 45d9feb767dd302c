package leat.mqtt;

import static java.util.Objects.requireNonNull;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import leat.config.ConnectionSettings;
import leat.words.FaultWords;

/**
 * Listens at a broker for a while, for a person who wants to see what comes there: one connection,
 * subscriptions at QoS 0, nothing published and no last will. What it keeps has a bound, however
 * much comes.
 *
 * <p>Used once, by one thread; messages come on a thread of the library.
 */
public final class Overhearing {

    private static final Duration BOUND = Duration.ofSeconds(5);
    private static final Duration FAREWELL = Duration.ofMillis(500);
    private static final int MOST_TOPICS = 200;
    private static final int MOST_MESSAGES = 20;
    private static final int LONGEST_PAYLOAD = 16 * 1024;
    private static final int MOST_BYTES = 8 << 20;
    private static final int LONGEST_TOPIC = 1000;

    private final ConnectionSettings.Mqtt settings;
    private final String filter;
    private final String endpoint;
    private final CountDownLatch over = new CountDownLatch(1);
    private final Map<String, Kept> topics = new LinkedHashMap<>();
    private int bytes;
    private long passedOver;

    private static final class Kept {
        private long count;
        private long retained;
        private final List<Heard.Message> messages = new ArrayList<>();
    }

    /**
     * @param settings of the broker; its client id is not used, for a running leat may have it
     * @param clientId one that nobody else has
     * @param filter topics, wildcards allowed
     */
    public Overhearing(ConnectionSettings.Mqtt settings, String clientId, String filter) {
        this.settings =
                new ConnectionSettings.Mqtt(
                        settings.name(),
                        settings.url(),
                        clientId,
                        settings.user(),
                        settings.password(),
                        settings.trust(),
                        Optional.empty(),
                        settings.keepAlive(),
                        settings.reconnectMax());
        this.filter = requireNonNull(filter, "filter");
        this.endpoint = settings.url();
    }

    /** Listens for so long, or until the connection breaks; what has come before is kept. */
    public Heard listen(Duration time) throws InterruptedException {
        Optional<String> fault = Optional.empty();
        try {
            Session session = new Session(endpoint, settings, new Ear());
            try {
                session.connect(BOUND, "");
                if (!session.subscribe(List.of(filter), List.of(0), BOUND).isEmpty()) {
                    throw new LinkTrouble(
                            endpoint,
                            "the broker refuses to tell " + filter + "; check its rights");
                }
                if (over.await(time.toMillis(), TimeUnit.MILLISECONDS)) {
                    throw session.lost()
                            .orElse(new LinkTrouble(endpoint, FaultWords.english("broker.lost")));
                }
                session.leave(FAREWELL);
            } finally {
                session.end();
            }
        } catch (LinkTrouble e) {
            fault = Optional.of(e.getMessage());
        }
        return heard(fault);
    }

    /** Whether anything has come yet. */
    synchronized boolean hasHeard() {
        return !topics.isEmpty();
    }

    private synchronized Heard heard(Optional<String> fault) {
        List<Heard.Topic> all = new ArrayList<>();
        topics.forEach(
                (name, kept) ->
                        all.add(new Heard.Topic(name, kept.count, kept.retained, kept.messages)));
        return new Heard(all, passedOver, fault);
    }

    private synchronized void keep(String topic, byte[] payload, boolean retained) {
        Kept kept = topics.get(topic);
        if (kept == null) {
            if (topics.size() == MOST_TOPICS || topic.length() > LONGEST_TOPIC) {
                passedOver++;
                return;
            }
            kept = new Kept();
            topics.put(topic, kept);
        }
        kept.count++;
        kept.retained += retained ? 1 : 0;
        if (kept.messages.size() < MOST_MESSAGES && bytes < MOST_BYTES) {
            String text =
                    new String(
                            payload,
                            0,
                            Math.min(payload.length, LONGEST_PAYLOAD),
                            StandardCharsets.ISO_8859_1);
            bytes += text.length();
            kept.messages.add(
                    new Heard.Message(System.currentTimeMillis(), retained, payload.length, text));
        }
    }

    private final class Ear implements Session.Owner {
        @Override
        public void arrived(String topic, byte[] payload, boolean retained) {
            keep(topic, payload, retained);
        }

        @Override
        public void lost() {
            over.countDown();
        }
    }
}
