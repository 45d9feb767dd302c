package leat.acquire.mqtt;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.acquire.SourceHealth;
import leat.config.ChannelSettings;
import leat.config.MachineSettings;
import leat.config.Point;
import leat.mqtt.LinkHealth;
import leat.mqtt.MqttLink;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

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

    private static final Logger LOG = LoggerFactory.getLogger(MqttSource.class);
    private static final long LOOK_MILLIS = 100;
    private static final long CLOSE_MILLIS = 1000;

    private final MqttLink link;
    private final List<ChannelFeed> feeds;
    private final ScheduledThreadPoolExecutor looking;
    private boolean started;

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
        this.looking =
                new ScheduledThreadPoolExecutor(
                        1,
                        work -> {
                            Thread thread = new Thread(work, "leat-silence-" + link.name());
                            thread.setDaemon(true);
                            return thread;
                        });
    }

    @Override
    public String name() {
        return link.name();
    }

    /** Begins to look for silence, which counts from now. */
    @Override
    public synchronized void start() {
        if (!started && !looking.isShutdown()) {
            started = true;
            feeds.forEach(ChannelFeed::begin);
            looking.scheduleWithFixedDelay(
                    this::guardedStep, LOOK_MILLIS, LOOK_MILLIS, TimeUnit.MILLISECONDS);
        }
    }

    /** Looks once whether a channel has fallen silent. */
    void step() {
        LinkHealth health = link.health();
        feeds.forEach(feed -> feed.look(health, link.endpoint()));
    }

    private void guardedStep() {
        try {
            step();
        } catch (RuntimeException e) {
            LOG.error("{}: looking for silence failed, going on", name(), e);
        }
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

    /** Ends the thread that looks for silence; the link is left to its owner. */
    @Override
    public void close() {
        looking.shutdownNow();
        try {
            if (!looking.awaitTermination(CLOSE_MILLIS, TimeUnit.MILLISECONDS)) {
                LOG.warn("{}: looking for silence has not ended in time", name());
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
