package leat.acquire.mqtt;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongSupplier;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.acquire.SourceHealth;
import leat.config.ChannelSettings;
import leat.config.MachineSettings;
import leat.config.Point;
import leat.mqtt.LinkHealth;
import leat.mqtt.MqttLink;
import leat.work.Worker;

/**
 * The channels that come over one MQTT connection. A retained message is what the broker last knew,
 * of any age, so it is counted but is no sample. A payload that carries its own time is passed on
 * with it, right or wrong: the watch judges it. A channel without a usable message for its {@code
 * silentAfter} is declared lost, once, whatever the cause; the reason names it.
 *
 * <p>The link is borrowed: build the source before the link is started, and let who made the link
 * start and close it. Thread-safe; owns one thread, which looks for silence.
 */
public final class MqttSource implements Source {

    private static final Duration LOOK_EVERY = Duration.ofMillis(100);
    private static final Duration LET_LOOK_END = Duration.ofMillis(500);
    private static final Duration CLOSE_WITHIN = Duration.ofMillis(1000);

    private final MqttLink link;
    private final List<ChannelFeed> feeds;
    private final Worker worker;

    /** Of the worker's thread alone. */
    private boolean looksAlready;

    /**
     * Subscribes every channel of {@code machines} that comes over this link.
     *
     * @param nanos monotonic clock, as {@code System::nanoTime}; silence is measured with it
     * @throws IllegalArgumentException for a pointer that is none
     */
    public MqttSource(
            MqttLink link, List<MachineSettings> machines, Intake intake, LongSupplier nanos) {
        this.link = requireNonNull(link, "link");
        this.feeds = new ArrayList<>();
        for (MachineSettings machine : machines) {
            for (ChannelSettings channel : machine.channels()) {
                if (channel.connection().equals(link.name())
                        && channel.point() instanceof Point.Topic topic) {
                    ChannelFeed feed =
                            new ChannelFeed(machine.name(), channel, topic, intake, nanos);
                    feeds.add(feed);
                    link.subscribe(
                            topic.topic(),
                            topic.qos(),
                            (at, payload, retained) -> feed.arrived(payload, retained));
                }
            }
        }
        this.worker =
                new Worker("leat-silence-" + link.name(), this::step, LET_LOOK_END, CLOSE_WITHIN);
    }

    @Override
    public String name() {
        return link.name();
    }

    /** Begins to look for silence, which counts from now. */
    @Override
    public void start() {
        worker.start();
    }

    /**
     * Looks once whether a channel has fallen silent.
     *
     * @return how long it is until the next look
     */
    Duration step() {
        if (!looksAlready) {
            looksAlready = true;
            feeds.forEach(ChannelFeed::begin);
        }
        LinkHealth health = link.health();
        feeds.forEach(feed -> feed.look(health, link.endpoint()));
        return LOOK_EVERY;
    }

    @Override
    public SourceHealth health() {
        LinkHealth health = link.health();
        String fault = health.connected() ? "" : health.lastFault();
        for (ChannelFeed feed : feeds) {
            fault = fault.isEmpty() ? feed.lastFault() : fault;
        }
        return new SourceHealth(
                health.connected(),
                feeds.stream().mapToLong(ChannelFeed::readings).sum(),
                feeds.stream().mapToLong(ChannelFeed::missed).sum(),
                feeds.stream().mapToLong(ChannelFeed::malformedPayloads).sum() + health.faults(),
                fault.isEmpty() ? health.lastFault() : fault);
    }

    /** Retained messages that were not taken for samples. */
    public long retainedIgnored() {
        return feeds.stream().mapToLong(ChannelFeed::retainedIgnored).sum();
    }

    /**
     * Takes no more messages and ends the thread that looks for silence; the link is left to its
     * owner.
     */
    @Override
    public void close() {
        feeds.forEach(ChannelFeed::end);
        worker.close();
    }
}
