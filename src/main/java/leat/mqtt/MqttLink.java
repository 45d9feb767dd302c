package leat.mqtt;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import leat.config.ConnectionSettings;
import leat.signal.PlainText;
import leat.words.FaultWords;
import leat.work.NoMemory;
import leat.work.Trouble;
import leat.work.Worker;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One connection to one broker, kept up for ever: it is made again, with a growing pause, until
 * {@code close}, and every subscription is renewed each time. Where a status topic is set, leat
 * says "online" on it after each connect and "offline" when it leaves, both retained; the broker
 * says "offline" for it when the connection breaks.
 *
 * <p>Thread-safe. It owns one thread, on which it connects, subscribes and tells its watchers;
 * messages come on a thread of the client library, so a receiver must hand over and return at once.
 */
public final class MqttLink implements AutoCloseable {

    /** Takes the messages of a topic. Must return at once; must not publish. */
    public interface Receiver {
        /**
         * One message.
         *
         * @param retained true for what the broker had kept, which may be of any age
         */
        void arrived(String topic, byte[] payload, boolean retained);
    }

    private static final Logger LOG = LoggerFactory.getLogger(MqttLink.class);

    private static final Duration FIRST_PAUSE = Duration.ofSeconds(1);
    private static final Duration CONNECT_BOUND = Duration.ofSeconds(5);
    private static final Duration ACKNOWLEDGE_BOUND = Duration.ofSeconds(5);
    private static final Duration FAREWELL_BOUND = Duration.ofMillis(500);
    private static final Duration CLOSE_BOUND = Duration.ofSeconds(2);

    /** A connection that breaks sooner does not reset the pause: two clients with one id. */
    private static final Duration HELD = Duration.ofSeconds(10);

    /** Unanswered publications in a row after which the connection is held to be dead. */
    private static final int UNANSWERED = 3;

    private static final Duration LOOK = Duration.ofSeconds(1);
    private static final int LONGEST_NAME = 80;

    private record Topic(int qos, List<Receiver> receivers) {}

    private final ConnectionSettings.Mqtt settings;
    private final String site;
    private final Duration acknowledgeBound;
    private final String endpoint;
    private final Map<String, Topic> topics = new LinkedHashMap<>();
    private final List<Runnable> watchers = new CopyOnWriteArrayList<>();
    private final Trouble trouble = new Trouble();

    /** Never over: the first receiver that fails is told in full, more are only counted. */
    private final Trouble failingReceivers = new Trouble();

    private final Worker worker;

    private final AtomicLong connects = new AtomicLong();
    private final AtomicLong faults = new AtomicLong();
    private final AtomicLong received = new AtomicLong();
    private final AtomicLong dropped = new AtomicLong();
    private final AtomicLong published = new AtomicLong();
    private final AtomicLong unacknowledged = new AtomicLong();
    private final AtomicInteger unanswered = new AtomicInteger();

    private boolean started;
    private volatile Optional<Session> current = Optional.empty();
    private volatile String lastFault = "";

    // of the link's thread alone
    private Duration pause;
    private long nextTryNanos = System.nanoTime();
    private long begunNanos;

    /**
     * @param site its name, for whoever reads leat's status
     */
    public MqttLink(ConnectionSettings.Mqtt settings, String site) {
        this(settings, site, ACKNOWLEDGE_BOUND);
    }

    MqttLink(ConnectionSettings.Mqtt settings, String site, Duration acknowledgeBound) {
        this.settings = requireNonNull(settings, "settings");
        this.site = PlainText.harmless(requireNonNull(site, "site"), LONGEST_NAME);
        this.acknowledgeBound = acknowledgeBound;
        this.endpoint = settings.url().replaceFirst("//[^/]*@", "//***@");
        this.pause = firstPause();
        this.worker =
                new Worker("leat-mqtt-" + settings.name(), this::step, Duration.ZERO, CLOSE_BOUND);
    }

    /** The connection's name in the configuration. */
    public String name() {
        return settings.name();
    }

    /** The broker's address for a message to people; holds no password. */
    public String endpoint() {
        return endpoint;
    }

    /**
     * Asks for the messages of a topic, from the next connect on. Several receivers may share one
     * topic.
     *
     * @param topic without wildcards
     * @param qos 0, 1 or 2; the highest that any receiver asked for is used
     * @throws IllegalStateException after {@code start}
     */
    public synchronized void subscribe(String topic, int qos, Receiver receiver) {
        if (started) {
            throw new IllegalStateException(name() + ": subscriptions come before start");
        }
        if (topic.isEmpty() || topic.contains("+") || topic.contains("#")) {
            throw new IllegalArgumentException("not a single topic: " + topic);
        }
        Topic asked = topics.getOrDefault(topic, new Topic(0, List.of()));
        List<Receiver> receivers = new ArrayList<>(asked.receivers());
        receivers.add(requireNonNull(receiver, "receiver"));
        topics.put(topic, new Topic(Math.max(asked.qos(), qos), List.copyOf(receivers)));
    }

    /** Runs {@code watcher} on the link's thread after every connect. It must return at once. */
    public void onConnected(Runnable watcher) {
        watchers.add(requireNonNull(watcher, "watcher"));
    }

    /** Begins to connect. Returns at once; further calls do nothing. */
    public synchronized void start() {
        started = true;
        worker.start();
    }

    /**
     * Publishes and waits, at most 5 s, for the broker to take the message over. Returns at once
     * when there is no connection.
     *
     * @param qos 1 or 2; with 0 there is no acknowledgement and sent counts as taken over
     */
    public Acknowledgement publish(String topic, String payload, int qos, boolean retained) {
        Optional<Session> session = current;
        if (session.isEmpty()) {
            unacknowledged.incrementAndGet();
            return Acknowledgement.missing(
                    lastFault.isEmpty()
                            ? FaultWords.english("broker.not-connected", endpoint)
                            : lastFault);
        }
        try {
            session.get().publish(topic, payload, qos, retained, acknowledgeBound);
            published.incrementAndGet();
            unanswered.set(0);
            return Acknowledgement.GIVEN;
        } catch (LinkTrouble e) {
            unacknowledged.incrementAndGet();
            if (unanswered.incrementAndGet() >= UNANSWERED) {
                session.get().giveUp(FaultWords.english("broker.no-ack"));
            }
            return Acknowledgement.missing(e.getMessage());
        }
    }

    public LinkHealth health() {
        return new LinkHealth(
                current.isPresent(),
                connects.get(),
                faults.get(),
                received.get(),
                dropped.get(),
                published.get(),
                unacknowledged.get(),
                lastFault);
    }

    /** Says "offline", disconnects and ends the thread, within 2 s. Further calls do nothing. */
    @Override
    public synchronized void close() {
        if (worker.end()) {
            current.ifPresent(this::leave);
        }
    }

    private void leave(Session session) {
        takeLeave(session);
        current = Optional.empty();
        session.end();
    }

    /**
     * Connects when that is due; with a connection, looks whether it still stands.
     *
     * @return how long nothing is due unless the library says that the connection is lost
     */
    Duration step() {
        if (current.isPresent()) {
            return look(current.get());
        }
        long left = nextTryNanos - System.nanoTime();
        if (left > 0) {
            return Duration.ofNanos(left);
        }
        connect();
        return current.isPresent() ? LOOK : untilNextTry();
    }

    private void connect() {
        begunNanos = System.nanoTime();
        try {
            Session session = new Session(endpoint, settings, new Hearing());
            try {
                open(session);
            } finally {
                if (current.isEmpty()) {
                    session.end();
                }
            }
        } catch (LinkTrouble e) {
            if (!worker.isClosing()) {
                note(e.getMessage());
            }
        } catch (RuntimeException e) {
            note(FaultWords.english("where", endpoint, e.toString()));
            untilNextTry();
            throw e;
        }
    }

    private Duration look(Session session) {
        Optional<LinkTrouble> lost = session.lost();
        if (lost.isEmpty()) {
            return LOOK;
        }
        note(lost.get().getMessage());
        current = Optional.empty();
        session.end();
        if (System.nanoTime() - begunNanos >= HELD.toNanos()) {
            pause = firstPause();
        }
        return untilNextTry();
    }

    private Duration untilNextTry() {
        Duration until = pause;
        nextTryNanos = System.nanoTime() + until.toNanos();
        pause = longer(pause);
        return until;
    }

    private void open(Session session) throws LinkTrouble {
        session.connect(CONNECT_BOUND, status("offline", "connection lost"));
        List<String> names = List.copyOf(topics.keySet());
        List<Integer> levels = topics.values().stream().map(Topic::qos).toList();
        for (String refused : session.subscribe(names, levels, CONNECT_BOUND)) {
            note(
                    FaultWords.english(
                            "where", endpoint, FaultWords.english("broker.topic", refused)));
        }
        if (settings.statusTopic().isPresent()) {
            String online = status("online", "connected");
            session.publish(settings.statusTopic().get(), online, 1, true, CONNECT_BOUND);
        }
        unanswered.set(0);
        current = Optional.of(session);
        LOG.info(
                "{}: connected, {} topics subscribed{}",
                endpoint,
                names.size(),
                settings.statusTopic().map(topic -> ", says so on " + topic).orElse(""));
        trouble.over();
        connects.incrementAndGet();
        watchers.forEach(this::tell);
    }

    private void takeLeave(Session session) {
        try {
            if (settings.statusTopic().isPresent()) {
                String offline = status("offline", "closed");
                session.publish(settings.statusTopic().get(), offline, 1, true, FAREWELL_BOUND);
            }
            session.leave(FAREWELL_BOUND);
            LOG.info("{}: disconnected", endpoint);
        } catch (LinkTrouble e) {
            LOG.info("{}; the broker's last will says offline", e.getMessage());
        }
    }

    private void tell(Runnable watcher) {
        try {
            watcher.run();
        } catch (RuntimeException e) {
            LOG.error("{}: a watcher failed", endpoint, e);
        }
    }

    private void note(String fault) {
        faults.incrementAndGet();
        lastFault = fault;
        if (trouble.isNews(fault)) {
            LOG.warn("{}; trying again until it works", fault);
        }
    }

    private String status(String word, String reason) {
        return JsonNodeFactory.instance
                .objectNode()
                .put("schema", "leat.status/1")
                .put("status", word)
                .put("site", site)
                .put("client_id", settings.clientId())
                .put("reason", reason)
                .toString();
    }

    private Duration firstPause() {
        return shorter(FIRST_PAUSE, settings.reconnectMax());
    }

    private Duration longer(Duration pause) {
        return shorter(pause.multipliedBy(2), settings.reconnectMax());
    }

    private static Duration shorter(Duration a, Duration b) {
        return a.compareTo(b) <= 0 ? a : b;
    }

    private final class Hearing implements Session.Owner {
        @Override
        public void arrived(String topic, byte[] payload, boolean retained) {
            Topic asked = topics.get(topic);
            if (asked == null) {
                dropped.incrementAndGet();
                return;
            }
            for (Receiver receiver : asked.receivers()) {
                hand(receiver, topic, payload, retained);
            }
        }

        /** Whatever leaves this callback would close the connection, so nothing may. */
        private void hand(Receiver receiver, String topic, byte[] payload, boolean retained) {
            try {
                receiver.arrived(topic, payload, retained);
                received.incrementAndGet();
            } catch (Throwable e) {
                NoMemory.endFor(e);
                dropped.incrementAndGet();
                if (failingReceivers.isNews("")) {
                    LOG.error(
                            "{}: a receiver of {} failed; more are only counted",
                            endpoint,
                            topic,
                            e);
                }
            }
        }

        @Override
        public void lost() {
            worker.wake();
        }
    }
}
