package leat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.stream.Stream;
import leat.config.ConnectionSettings;
import leat.words.FaultWords;
import org.eclipse.paho.client.mqttv3.IMqttActionListener;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.IMqttToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;
import org.eclipse.paho.client.mqttv3.internal.NetworkModule;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One connection from its making to its end, over one client object of the library that is never
 * used again: a client that has seen a broken connection or a malformed packet is not to be
 * trusted.
 *
 * <p>The MQTT session is a clean one. A broker that kept it would hand over, after an absence of
 * leat, old readings in a burst, and those without a time of their own would be taken for new.
 *
 * <p>Thread-safe. Every wait is bounded and ends on an interrupt.
 */
final class Session {

    /** What a session tells its owner, on a thread of the library: both must return at once. */
    interface Owner {
        void arrived(String topic, byte[] payload, boolean retained);

        void lost();
    }

    private static final Logger LOG = LoggerFactory.getLogger(Session.class);
    private static final int MAX_INFLIGHT = 100;
    private static final int REFUSED = 0x80;
    private static final long REASON_NANOS = 1_000_000_000;

    private final String endpoint;
    private final ConnectionSettings.Mqtt settings;
    private final Owner owner;
    private final MqttAsyncClient client;
    private volatile Optional<LinkTrouble> lost = Optional.empty();
    private volatile OptionalLong connectBegun = OptionalLong.empty();
    private OptionalLong droppedNanos = OptionalLong.empty();

    Session(String endpoint, ConnectionSettings.Mqtt settings, Owner owner) throws LinkTrouble {
        this.endpoint = endpoint;
        this.settings = settings;
        this.owner = owner;
        try {
            client = new PatientClient(settings.url(), settings.clientId());
        } catch (MqttException | IllegalArgumentException e) {
            throw new LinkTrouble(endpoint, FaultWords.english("broker.no-address"));
        }
    }

    /**
     * Connects.
     *
     * @param farewell what the broker shall say on the status topic when the connection breaks
     */
    void connect(Duration bound, String farewell) throws LinkTrouble {
        MqttConnectOptions options = new MqttConnectOptions();
        options.setMqttVersion(MqttConnectOptions.MQTT_VERSION_3_1_1);
        options.setCleanSession(true);
        options.setAutomaticReconnect(false);
        options.setMaxInflight(MAX_INFLIGHT);
        options.setConnectionTimeout((int) Math.max(1, bound.toSeconds()));
        options.setKeepAliveInterval((int) Math.max(1, settings.keepAlive().toSeconds()));
        if (settings.url().startsWith("ssl://")) {
            options.setSocketFactory(settings.trust().context().getSocketFactory());
            options.setHttpsHostnameVerificationEnabled(true);
        }
        settings.user().ifPresent(options::setUserName);
        settings.password().ifPresent(p -> options.setPassword(p.reveal().toCharArray()));
        settings.statusTopic()
                .ifPresent(topic -> options.setWill(topic, farewell.getBytes(UTF_8), 1, true));
        client.setCallback(new Callback());
        connectBegun = OptionalLong.of(System.nanoTime());
        await(
                listener -> client.connect(options, null, listener),
                bound,
                FaultWords.english("broker.connect"));
    }

    /**
     * Subscribes to all topics in one request.
     *
     * @return the topics that the broker refused
     */
    List<String> subscribe(List<String> topics, List<Integer> qos, Duration bound)
            throws LinkTrouble {
        if (topics.isEmpty()) {
            return List.of();
        }
        String[] filters = topics.toArray(String[]::new);
        int[] levels = qos.stream().mapToInt(Integer::intValue).toArray();
        IMqttToken done =
                await(
                        listener -> client.subscribe(filters, levels, null, listener),
                        bound,
                        FaultWords.english("broker.subscription"));
        int[] granted = done.getGrantedQos();
        List<String> refused = new ArrayList<>();
        for (int i = 0; i < filters.length && i < granted.length; i++) {
            if (granted[i] == REFUSED) {
                refused.add(filters[i]);
            }
        }
        return refused;
    }

    /** Publishes and waits for the acknowledgement of the broker; for QoS 0 until it is sent. */
    void publish(String topic, String payload, int qos, boolean retained, Duration bound)
            throws LinkTrouble {
        byte[] bytes = payload.getBytes(UTF_8);
        await(
                listener -> client.publish(topic, bytes, qos, retained, null, listener),
                bound,
                FaultWords.english("broker.publication", topic));
    }

    /**
     * Empty while the connection stands. The library first drops a connection and says why a moment
     * later: so long it counts as standing. Called by one thread.
     */
    Optional<LinkTrouble> lost() {
        if (lost.isPresent() || client.isConnected()) {
            return lost;
        }
        if (droppedNanos.isEmpty()) {
            droppedNanos = OptionalLong.of(System.nanoTime());
        }
        return System.nanoTime() - droppedNanos.getAsLong() < REASON_NANOS
                ? Optional.empty()
                : Optional.of(new LinkTrouble(endpoint, FaultWords.english("broker.lost")));
    }

    /** Declares the connection broken, whatever the library holds of it. */
    void giveUp(String why) {
        lost = Optional.of(new LinkTrouble(endpoint, why));
        owner.lost();
    }

    /** Takes leave of the broker, which then keeps the last will to itself. */
    void leave(Duration bound) throws LinkTrouble {
        await(listener -> client.disconnect(0, null, listener), bound, "disconnect");
    }

    /**
     * Ends the connection and the library's threads, in whatever state they are. A connect that has
     * only just begun is given the time in which the library's threads start, or one of them would
     * stay for ever; see {@link PatientModule}.
     */
    void end() {
        boolean interrupted = Thread.interrupted();
        connectBegun.ifPresent(PatientModule::settle);
        try {
            client.disconnectForcibly(0, 1, false);
        } catch (MqttException | RuntimeException e) {
            LOG.debug("{}: ending the connection", endpoint, e);
        }
        try {
            client.close(true);
        } catch (MqttException | RuntimeException e) {
            LOG.debug("{}: closing the client", endpoint, e);
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private static final class PatientClient extends MqttAsyncClient {
        PatientClient(String url, String clientId) throws MqttException {
            super(url, clientId, new MemoryPersistence());
        }

        @Override
        protected NetworkModule[] createNetworkModules(String url, MqttConnectOptions options)
                throws MqttException {
            NetworkModule[] modules = super.createNetworkModules(url, options);
            return Stream.of(modules).map(PatientModule::new).toArray(NetworkModule[]::new);
        }
    }

    private interface Request {
        void start(IMqttActionListener listener) throws MqttException;
    }

    private IMqttToken await(Request request, Duration bound, String what) throws LinkTrouble {
        Completion done = new Completion();
        try {
            request.start(done);
            return done.future.get(bound.toMillis(), TimeUnit.MILLISECONDS);
        } catch (MqttException e) {
            throw LinkTrouble.of(endpoint, e);
        } catch (ExecutionException e) {
            throw LinkTrouble.of(endpoint, e.getCause());
        } catch (TimeoutException e) {
            throw new LinkTrouble(
                    endpoint,
                    FaultWords.english(
                            "where",
                            what,
                            FaultWords.english(
                                    "broker.no-answer-within",
                                    Double.toString(bound.toMillis() / 1000.0))));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new LinkTrouble(
                    endpoint, FaultWords.english("where", what, FaultWords.english("interrupted")));
        }
    }

    private static final class Completion implements IMqttActionListener {
        private final CompletableFuture<IMqttToken> future = new CompletableFuture<>();

        @Override
        public void onSuccess(IMqttToken token) {
            future.complete(token);
        }

        @Override
        public void onFailure(IMqttToken token, Throwable cause) {
            future.completeExceptionally(
                    cause == null ? new IllegalStateException("failed without a reason") : cause);
        }
    }

    private final class Callback implements MqttCallback {
        @Override
        public void connectionLost(Throwable cause) {
            if (lost.isEmpty()) {
                lost =
                        Optional.of(
                                cause == null
                                        ? new LinkTrouble(
                                                endpoint, FaultWords.english("broker.lost"))
                                        : LinkTrouble.of(endpoint, cause));
            }
            owner.lost();
        }

        @Override
        public void messageArrived(String topic, MqttMessage message) {
            owner.arrived(topic, message.getPayload(), message.isRetained());
        }

        @Override
        public void deliveryComplete(IMqttDeliveryToken token) {
            // the listener of each publication is told
        }
    }
}
