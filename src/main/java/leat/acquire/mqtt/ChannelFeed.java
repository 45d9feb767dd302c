package leat.acquire.mqtt;

import java.nio.charset.StandardCharsets;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import leat.acquire.Intake;
import leat.acquire.SetUp;
import leat.config.ChannelSettings;
import leat.config.Point;
import leat.mqtt.LinkHealth;
import leat.signal.PlainText;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.words.FaultWords;
import leat.words.Language;
import leat.words.Numbers;
import leat.work.ComingAndGoing;
import leat.work.Trouble;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One channel that comes over MQTT. Messages and looks for silence come on different threads; the
 * lock keeps what the intake is given in order: lost, back, reading. Nothing in it waits.
 */
final class ChannelFeed {

    private static final Logger LOG = LoggerFactory.getLogger(ChannelFeed.class);
    private static final int SHOWN = 80;

    private final String machine;
    private final ChannelSettings settings;
    private final Point.Topic point;
    private final PayloadReader reader;
    private final Intake intake;
    private final LongSupplier nanos;

    /** Never over: the first payload that cannot be read is shown, more are only counted. */
    private final Trouble unreadable = new Trouble();

    private final SetUp setUp;

    private final ComingAndGoing losses;

    private long lastUsableNanos;
    private boolean lost;
    private boolean anyUsable;
    private boolean ended;
    private long malformedSinceUsable;
    private long readings;
    private long missed;
    private long malformed;
    private long retainedIgnored;
    private String lastFault = "";

    ChannelFeed(
            String machine,
            ChannelSettings settings,
            Point.Topic point,
            Intake intake,
            LongSupplier nanos) {
        this.machine = machine;
        this.settings = settings;
        this.point = point;
        this.reader = new PayloadReader(point, !settings.channel().isPressure());
        this.intake = intake;
        this.nanos = nanos;
        this.setUp = new SetUp(settings.conversion());
        this.losses = new ComingAndGoing(nanos);
        this.lastUsableNanos = nanos.getAsLong();
    }

    /** Silence counts from now. */
    synchronized void begin() {
        lastUsableNanos = nanos.getAsLong();
    }

    /** Offers nothing from now on, whatever arrives. */
    synchronized void end() {
        ended = true;
    }

    synchronized void arrived(byte[] payload, boolean retained) {
        if (ended) {
            return;
        }
        if (retained) {
            retainedIgnored++;
            return;
        }
        long now = intake.nowMicros();
        try {
            Payload read = reader.read(payload);
            deliver(now, read, payload);
        } catch (MalformedPayload e) {
            malformed(payload, e.getMessage());
        }
    }

    private void deliver(long now, Payload read, byte[] payload) {
        if (lost && !intake.offer(machine, new SourceBack(settings.channel(), now))) {
            missed++;
            return;
        }
        lost = false;
        anyUsable = true;
        malformedSinceUsable = 0;
        lastUsableNanos = nanos.getAsLong();
        Reading reading = settings.conversion().read(settings.channel(), now, read.raw());
        setUp.news(read.raw(), reading).ifPresent(why -> wrong(payload, why));
        if (read.atMicros().isPresent()) {
            reading = reading.claiming(read.atMicros().getAsLong());
        }
        if (intake.offer(machine, reading)) {
            readings++;
        } else {
            missed++;
        }
    }

    private void malformed(byte[] payload, String why) {
        malformed++;
        malformedSinceUsable++;
        lastFault = FaultWords.english("mqtt.malformed", what(), point.topic(), why);
        if (unreadable.isNews("")) {
            LOG.warn(
                    "{}; it begins: {} (more on this channel are only counted)",
                    lastFault,
                    beginning(payload));
        }
    }

    private void wrong(byte[] payload, String why) {
        LOG.warn(
                "{} does not read right: topic {} gives {}:"
                        + " check topic, place in the payload, unit and scaling; it begins: {}",
                what(),
                point.topic(),
                why,
                beginning(payload));
    }

    private static String beginning(byte[] payload) {
        int length = Math.min(payload.length, 4 * SHOWN);
        return PlainText.harmless(new String(payload, 0, length, StandardCharsets.UTF_8), SHOWN);
    }

    /** Declares the channel lost when it has been silent too long, once. */
    synchronized void look(LinkHealth link, String endpoint) {
        long silent = nanos.getAsLong() - lastUsableNanos;
        if (ended || lost || silent < point.silentAfter().toNanos()) {
            return;
        }
        String reason = reason(silent, link, endpoint);
        if (intake.offer(machine, new SourceLost(settings.channel(), intake.nowMicros(), reason))) {
            lost = true;
            lastFault = FaultWords.english("where", what(), reason);
            losses.lost().ifPresent(more -> LOG.warn("{}{}", lastFault, more));
        } else {
            missed++;
        }
    }

    private String reason(long silentNanos, LinkHealth link, String endpoint) {
        if (!link.connected()) {
            return FaultWords.english(
                    "mqtt.no-broker", link.lastFault().isEmpty() ? endpoint : link.lastFault());
        }
        double seconds = silentNanos / (double) TimeUnit.SECONDS.toNanos(1);

        if (malformedSinceUsable > 0) {
            return FaultWords.english(
                    "mqtt.unreadable",
                    Long.toString(malformedSinceUsable),
                    point.topic(),
                    endpoint);
        }
        return FaultWords.english(
                anyUsable ? "mqtt.silent" : "mqtt.never",
                Numbers.number(Language.ENGLISH, seconds, 1),
                point.topic(),
                endpoint);
    }

    private String what() {
        return machine + " " + settings.channel().key();
    }

    synchronized long readings() {
        return readings;
    }

    synchronized long missed() {
        return missed;
    }

    synchronized long malformedPayloads() {
        return malformed;
    }

    synchronized long retainedIgnored() {
        return retainedIgnored;
    }

    synchronized String lastFault() {
        return lastFault;
    }
}
