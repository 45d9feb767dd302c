package leat.deliver;

import static java.util.Objects.requireNonNull;

import leat.mqtt.Acknowledgement;
import leat.mqtt.MqttLink;
import leat.store.Message;

/**
 * An MQTT broker. Each message goes out twice, both with QoS 1 and the JSON: retained on {@code
 * <prefix>/<machine>/alarm/<rule>} (for a rule about a channel's own signal with the channel as one
 * more level), where the last state of each alarm stands for whoever comes later, and on {@code
 * <prefix>/event}, not retained, as the stream of events. What is not about one alarm is not
 * retained, on {@code <prefix>/notice} and in the stream.
 *
 * <p>The link is borrowed: who made it starts and closes it. Thread-safe.
 */
public final class MqttRoute implements Route {

    private static final int AT_LEAST_ONCE = 1;

    private final String name;
    private final MqttLink link;
    private final String prefix;

    /**
     * @param prefix first levels of the topics, without a slash at the end
     */
    public MqttRoute(String name, MqttLink link, String prefix) {
        this.name = requireNonNull(name, "name");
        this.link = requireNonNull(link, "link");
        this.prefix = requireNonNull(prefix, "prefix");
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public void start(Runnable reachable) {
        link.onConnected(reachable);
    }

    @Override
    public DeliveryResult deliver(Message message) {
        boolean isState = !message.alarmId().isEmpty();
        Acknowledgement state = publish(message.topic(), message, isState);
        Acknowledgement event = state.acknowledged() ? publish("event", message, false) : state;
        return event.acknowledged()
                ? DeliveryResult.DELIVERED
                : DeliveryResult.notNow(event.reason());
    }

    private Acknowledgement publish(String topic, Message message, boolean retained) {
        return link.publish(prefix + "/" + topic, message.json(), AT_LEAST_ONCE, retained);
    }

    @Override
    public void close() {
        // the link belongs to who made it
    }
}
