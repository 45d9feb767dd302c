package leat.bench.panel;

import static java.util.Objects.requireNonNull;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.sensor.Tap;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Sensors that publish over MQTT 3.1.1, at {@code prefix/machine/inlet} and likewise {@code
 * boosted}, {@code filtered}, {@code running}, {@code valve}, and {@code cutting} of those machines
 * of a scenario whose jet is ever turned off. While the broker is away it tries again every second,
 * and what cannot be published is dropped, as a simple sensor would. Has one thread of its own
 * beside those of the client. Thread-safe.
 */
public final class MqttPanel implements Panel {

    private static final Logger LOG = LoggerFactory.getLogger(MqttPanel.class);

    /** Rounds that may wait while the client is slow, beside those that are late. */
    private static final int MOST_ROUNDS_WAITING = 64;

    private static final int CHANNELS = Tap.values().length + 3;
    private static final int MOST_IN_FLIGHT = 2_000;
    private static final int CONNECT_SECONDS = 3;
    private static final long RETRY_MILLIS = 1_000;
    private static final long LONGEST_WAIT_MICROS = 1_000_000;
    private static final long CLOSE_MILLIS = 1_000;

    private final String name;
    private final MqttSettings settings;
    private final List<String> machines;
    private final Set<String> pausing;
    private final Thread publishing;
    private final Post post;
    private final long mostWaiting;
    private long nextMicros;
    private long dropped;
    private boolean closed;

    /**
     * Begins to connect at once.
     *
     * @param name of the connection in {@code site.yaml}
     * @param machines which machines it publishes
     */
    public MqttPanel(String name, MqttSettings settings, List<String> machines) {
        this(name, settings, machines, Set.of());
    }

    /** Likewise for the machines of a scenario. */
    public MqttPanel(String name, MqttSettings settings, Scenario scenario) {
        this(name, settings, scenario.machineNames(), scenario.pausing());
    }

    private MqttPanel(
            String name, MqttSettings settings, List<String> machines, Set<String> pausing) {
        this.pausing = pausing;
        this.name = requireNonNull(name, "name");
        this.settings = requireNonNull(settings, "settings");
        this.machines = List.copyOf(machines);
        post = new Post(settings.seed(), settings.lostPercent(), settings.jitterMicros());
        double late = Math.ceil(settings.jitterMicros() / 1e6 * settings.publishHz());
        mostWaiting = Math.round((MOST_ROUNDS_WAITING + late) * CHANNELS * machines.size());
        publishing = new Thread(this::publish, "bench-mqtt");
        publishing.setDaemon(true);
        publishing.start();
    }

    @Override
    public synchronized void show(Instant at, List<Sample> samples) {
        if (samples.isEmpty() || samples.get(0).micros() < nextMicros) {
            return;
        }
        long period = Math.round(1e6 / settings.publishHz());
        long now = samples.get(0).micros();
        nextMicros = now - nextMicros < period ? nextMicros + period : now + period;
        for (Sample sample : samples) {
            if (machines.contains(sample.machine())) {
                post(at, sample);
            }
        }
        while (post.size() > mostWaiting) {
            post.drop();
            dropped++;
        }
        notifyAll();
    }

    private void post(Instant at, Sample sample) {
        for (Tap tap : Tap.values()) {
            String psi = String.format(Locale.ROOT, "%.3f", sample.psi(tap));
            post(sample.machine(), tap.key(), at, "psi", psi);
        }
        post(sample.machine(), "running", at, "on", sample.running() ? "1" : "0");
        post(sample.machine(), "valve", at, "on", sample.valveOpen() ? "1" : "0");
        if (pausing.contains(sample.machine())) {
            post(sample.machine(), "cutting", at, "on", sample.cutting() ? "1" : "0");
        }
    }

    private void post(String machine, String channel, Instant at, String key, String value) {
        String text =
                switch (settings.payload()) {
                    case PLAIN -> value;
                    case JSON -> "{\"" + key + "\":" + value + ",\"t\":\"" + at + "\"}";
                };
        post.post(nowMicros(), topic(machine, channel), text);
    }

    private static long nowMicros() {
        return System.nanoTime() / 1_000;
    }

    /** Messages that no broker took. */
    public synchronized long dropped() {
        return dropped;
    }

    private void publish() {
        try {
            while (!isClosed()) {
                Optional<MqttAsyncClient> client = connect();
                if (client.isPresent()) {
                    publishUntilLost(client.get());
                    end(client.get());
                } else {
                    pause();
                }
            }
        } catch (InterruptedException e) {
            LOG.debug("bench: MQTT panel was interrupted");
            Thread.currentThread().interrupt();
        }
    }

    private synchronized boolean isClosed() {
        return closed;
    }

    private synchronized void pause() throws InterruptedException {
        long until = System.nanoTime() + RETRY_MILLIS * 1_000_000;
        long left = RETRY_MILLIS;
        while (!closed && left > 0) {
            wait(left);
            left = (until - System.nanoTime()) / 1_000_000;
        }
    }

    /** A fresh client for each connection: what an old one left unfinished is not repeated. */
    private Optional<MqttAsyncClient> connect() {
        MqttConnectOptions options = new MqttConnectOptions();
        options.setConnectionTimeout(CONNECT_SECONDS);
        options.setMaxInflight(MOST_IN_FLIGHT);
        options.setCleanSession(true);
        String clientId = "bench-" + UUID.randomUUID().toString().substring(0, 8);
        try {
            MqttAsyncClient client =
                    new MqttAsyncClient(settings.url(), clientId, new MemoryPersistence());
            try {
                client.connect(options).waitForCompletion(CONNECT_SECONDS * 1_000L + 500);
                LOG.info("bench: publishes to {}", settings.url());
                return Optional.of(client);
            } catch (MqttException e) {
                LOG.debug("bench: no broker at {}: {}", settings.url(), e.toString());
                end(client);
            }
        } catch (MqttException e) {
            LOG.debug("bench: no MQTT client for {}: {}", settings.url(), e.toString());
        }
        return Optional.empty();
    }

    private void publishUntilLost(MqttAsyncClient client) throws InterruptedException {
        Optional<Post.Message> message = take();
        while (message.isPresent()) {
            byte[] text = message.get().text().getBytes(StandardCharsets.UTF_8);
            try {
                client.publish(message.get().topic(), text, settings.qos(), false);
            } catch (MqttException e) {
                synchronized (this) {
                    dropped++;
                }
                if (!client.isConnected()) {
                    LOG.info("bench: lost the broker at {}", settings.url());
                    return;
                }
            }
            message = take();
        }
    }

    /** Waits for the next message that is due; none when the panel is closed. */
    private synchronized Optional<Post.Message> take() throws InterruptedException {
        Optional<Post.Message> message = post.take(nowMicros());
        while (!closed && message.isEmpty()) {
            long left = Math.min(post.nextMicros() - nowMicros(), LONGEST_WAIT_MICROS);
            wait(Math.max((left + 999) / 1_000, 1));
            message = post.take(nowMicros());
        }
        return closed ? Optional.empty() : message;
    }

    private String topic(String machine, String channel) {
        return settings.prefix() + "/" + machine + "/" + channel;
    }

    private static void end(MqttAsyncClient client) {
        try {
            if (client.isConnected()) {
                client.disconnectForcibly(100, 200);
            }
        } catch (MqttException e) {
            LOG.debug("bench: the broker did not let go: {}", e.toString());
        }
        try {
            client.close(true);
        } catch (MqttException e) {
            LOG.debug("bench: an MQTT client did not close: {}", e.toString());
        }
    }

    @Override
    public synchronized Wiring wiring() {
        Map<String, Wiring.Channels> channels = new LinkedHashMap<>();
        for (String machine : machines) {
            Map<String, String> lines = new LinkedHashMap<>();
            for (Tap tap : Tap.values()) {
                lines.put(tap.key(), point(machine, tap.key(), "psi") + "unit: psi\n");
            }
            lines.put("running", point(machine, "running", "on"));
            lines.put("valve", point(machine, "valve", "on"));
            if (pausing.contains(machine)) {
                lines.put("cutting", point(machine, "cutting", "on"));
            }
            channels.put(machine, new Wiring.Channels(lines));
        }
        String connection =
                "{ mqtt: { url: \"" + settings.url() + "\", client_id: leat-" + name + " } }";
        return new Wiring(name, connection, channels);
    }

    private String point(String machine, String channel, String key) {
        String inPayload =
                switch (settings.payload()) {
                    case PLAIN -> "";
                    case JSON -> ", value: /" + key + ", time: /t";
                };
        return String.format(
                """
                from: %s
                topic: { name: %s, qos: %d%s }
                """,
                name, topic(machine, channel), settings.qos(), inPayload);
    }

    @Override
    public void close() {
        synchronized (this) {
            closed = true;
            notifyAll();
        }
        try {
            publishing.join(CLOSE_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        if (publishing.isAlive()) {
            LOG.warn("bench: thread {} still waits for its broker", publishing.getName());
        }
    }
}
