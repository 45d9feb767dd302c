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
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import leat.config.ConnectionSettings;
import leat.signal.PlainText;
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

    static final Logger LOG = LoggerFactory.getLogger(MqttLink.class);

    private static final Duration FIRST_PAUSE = Duration.ofSeconds(1);
    private static final Duration CONNECT_BOUND = Duration.ofSeconds(5);
    private static final Duration ACKNOWLEDGE_BOUND = Duration.ofSeconds(5);
    private static final Duration FAREWELL_BOUND = Duration.ofMillis(500);
    private static final Duration CLOSE_BOUND = Duration.ofSeconds(2);

    /** A connection that breaks sooner does not reset the pause: two clients with one id. */
    private static final Duration HELD = Duration.ofSeconds(10);

    /** Unanswered publications in a row after which the connection is held to be dead. */
    private static final int UNANSWERED = 3;

    private static final long LOOK_MILLIS = 1000;
    private static final int LONGEST_NAME = 80;

    private record Topic(int qos, List<Receiver> receivers) {}

    private final ConnectionSettings.Mqtt settings;
    private final String site;
    private final Duration acknowledgeBound;
    private final String endpoint;
    private final Map<String, Topic> topics = new LinkedHashMap<>();
    private final List<Runnable> watchers = new CopyOnWriteArrayList<>();
    private final Semaphore wake = new Semaphore(0);
    private final Thread thread;

    private final AtomicLong connects = new AtomicLong();
    private final AtomicLong faults = new AtomicLong();
    private final AtomicLong received = new AtomicLong();
    private final AtomicLong dropped = new AtomicLong();
    private final AtomicLong published = new AtomicLong();
    private final AtomicLong unacknowledged = new AtomicLong();
    private final AtomicInteger unanswered = new AtomicInteger();

    private boolean started;
    private volatile boolean closing;
    private volatile Optional<Session> current = Optional.empty();
    private volatile String lastFault = "";

    /** The fault that the log has last been told of; only the link's thread uses it. */
    private String toldFault = "";

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
        this.thread = new Thread(this::supervise, "leat-mqtt-" + settings.name());
        thread.setDaemon(true);
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
        if (!started && !closing) {
            started = true;
            thread.start();
        }
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
                    lastFault.isEmpty() ? endpoint + ": not connected yet" : lastFault);
        }
        try {
            session.get().publish(topic, payload, qos, retained, acknowledgeBound);
            published.incrementAndGet();
            unanswered.set(0);
            return Acknowledgement.GIVEN;
        } catch (LinkTrouble e) {
            unacknowledged.incrementAndGet();
            if (unanswered.incrementAndGet() >= UNANSWERED) {
                session.get().giveUp("the broker no longer acknowledges; check its health");
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
    public void close() {
        synchronized (this) {
            closing = true;
            if (!started) {
                return;
            }
        }
        wake.release();
        if (current.isEmpty()) {
            thread.interrupt();
        }
        try {
            thread.join(CLOSE_BOUND.toMillis());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        if (thread.isAlive()) {
            LOG.warn("{}: thread {} has not ended in time", endpoint, thread.getName());
        }
    }

    private void supervise() {
        Duration pause = firstPause();
        while (!closing) {
            long begun = System.nanoTime();
            boolean held = false;
            try {
                held = holdOneSession() && System.nanoTime() - begun >= HELD.toNanos();
            } catch (RuntimeException e) {
                note(endpoint + ": " + e);
                LOG.error("{}: unexpected, going on", endpoint, e);
            }
            pause = held ? firstPause() : pause;
            sleep(pause);
            pause = longer(pause);
        }
    }

    /** Connects, waits until the connection breaks or leat closes, and cleans up. */
    private boolean holdOneSession() {
        Session session;
        try {
            session = new Session(endpoint, settings, new Hearing());
        } catch (LinkTrouble e) {
            note(e.getMessage());
            return false;
        }
        try {
            open(session);
            stay(session);
            return true;
        } catch (LinkTrouble e) {
            if (!closing) {
                note(e.getMessage());
            }
            return false;
        } finally {
            current = Optional.empty();
            session.end();
        }
    }

    private void open(Session session) throws LinkTrouble {
        session.connect(CONNECT_BOUND, status("offline", "connection lost"));
        List<String> names = List.copyOf(topics.keySet());
        List<Integer> levels = topics.values().stream().map(Topic::qos).toList();
        for (String refused : session.subscribe(names, levels, CONNECT_BOUND)) {
            note(endpoint + ": the broker refuses the topic " + refused + "; check its rights");
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
        toldFault = "";
        connects.incrementAndGet();
        watchers.forEach(this::tell);
    }

    private void stay(Session session) {
        while (!closing) {
            Optional<LinkTrouble> lost = session.lost();
            if (lost.isPresent()) {
                note(lost.get().getMessage());
                return;
            }
            awaitWake(LOOK_MILLIS);
        }
        takeLeave(session);
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
        if (!fault.equals(toldFault)) {
            toldFault = fault;
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

    /** A pause that only {@code close} cuts short. */
    private void sleep(Duration pause) {
        long end = System.nanoTime() + pause.toNanos();
        long left = pause.toMillis();
        while (!closing && left > 0) {
            awaitWake(left);
            left = TimeUnit.NANOSECONDS.toMillis(end - System.nanoTime());
        }
    }

    private void awaitWake(long millis) {
        try {
            if (wake.tryAcquire(millis, TimeUnit.MILLISECONDS)) {
                wake.drainPermits();
            }
        } catch (InterruptedException e) {
            // only close interrupts this thread, and nothing but the end of the thread follows
            if (closing) {
                Thread.currentThread().interrupt();
            }
        }
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
                if (dropped.getAndIncrement() == 0) {
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
            wake.release();
        }
    }
}
