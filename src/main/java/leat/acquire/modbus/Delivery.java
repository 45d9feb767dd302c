package leat.acquire.modbus;

import java.time.Duration;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import leat.acquire.Intake;
import leat.acquire.SetUp;
import leat.config.ChannelSettings;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.words.FaultWords;
import leat.words.Language;
import leat.words.Numbers;
import leat.work.ComingAndGoing;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Turns what a poll brought into inputs and offers them. A channel's loss and its return are said
 * once each, in this order: lost, back, reading. Thread-confined.
 */
final class Delivery {

    /** A shorter silence than this is a hiccup, not a loss. */
    private static final Duration LEAST_LOSS = Duration.ofSeconds(1);

    private static final Logger LOG = LoggerFactory.getLogger(Delivery.class);

    private final String endpoint;
    private final Intake intake;
    private final PollCounts counts;

    /** By identity: a record's hash is made anew of all its parts at each look. */
    private final Map<Tap, Presence> presences = new IdentityHashMap<>();

    private final Map<Tap, SetUp> setUps = new IdentityHashMap<>();
    private final Map<Tap, ComingAndGoing> losses = new IdentityHashMap<>();

    /**
     * @param endpoint host and port, for messages
     * @param poll period of the polls; a loss takes two of them, and a second at least
     * @param taps each once
     */
    Delivery(String endpoint, Duration poll, List<Tap> taps, Intake intake, PollCounts counts) {
        this.endpoint = endpoint;
        this.intake = intake;
        this.counts = counts;
        long boundNanos = Math.max(poll.multipliedBy(2).toNanos(), LEAST_LOSS.toNanos());
        taps.forEach(tap -> presences.put(tap, new Presence(boundNanos)));
        taps.forEach(tap -> setUps.put(tap, new SetUp(tap.settings().conversion())));
    }

    /** Listens from then on: a silence does not begin before. */
    void begin(long sinceNanos) {
        presences.values().forEach(presence -> presence.heard(sinceNanos));
    }

    /** The device sent {@code words} for {@code block}. */
    void words(Block block, long atMicros, int[] words) {
        for (Tap tap : block.taps()) {
            ChannelSettings settings = tap.settings();
            double raw = Decoding.of(tap.register()).number(words, block.offset(tap));
            Reading reading = settings.conversion().read(settings.channel(), atMicros, raw);
            setUps.get(tap).news(raw, reading).ifPresent(why -> wrong(tap, block, words, why));
            offer(tap, reading);
        }
    }

    private void wrong(Tap tap, Block block, int[] words, String why) {
        StringBuilder sent = new StringBuilder();
        for (int i = 0; i < tap.register().width(); i++) {
            sent.append(String.format(Locale.ROOT, "0x%04x ", words[block.offset(tap) + i]));
        }
        LOG.warn(
                "{} {} does not read right: {}, {} gives {}= {}:"
                        + " check wiring, word order, type, scaling and address",
                tap.machine(),
                tap.settings().channel().key(),
                endpoint,
                tap.place(),
                sent,
                why);
    }

    /** The device lives but does not give the values of {@code block}. */
    void refused(Block block, long atMicros) {
        for (Tap tap : block.taps()) {
            Channel channel = tap.settings().channel();
            offer(tap, Reading.bad(channel, atMicros, Quality.DEVICE_REFUSED));
        }
    }

    /** The device gave no reply for {@code block}, or could not be asked. */
    void silent(Block block, LinkFault fault) {
        long nowNanos = System.nanoTime();
        for (Tap tap : block.taps()) {
            Presence presence = presences.get(tap);
            if (presence.isLossDue(nowNanos)) {
                lost(tap, presence, reason(tap, presence.silentNanos(nowNanos), fault));
            }
        }
    }

    private void lost(Tap tap, Presence presence, String reason) {
        Channel channel = tap.settings().channel();
        if (intake.offer(tap.machine(), new SourceLost(channel, intake.nowMicros(), reason))) {
            presence.reportedLost();
            losses.computeIfAbsent(tap, each -> new ComingAndGoing())
                    .lost()
                    .ifPresent(
                            more ->
                                    LOG.warn(
                                            "{} {} lost: {}{}",
                                            tap.machine(),
                                            channel.key(),
                                            reason,
                                            more));
        } else {
            counts.missed(1);
        }
    }

    private void offer(Tap tap, Reading reading) {
        Presence presence = presences.get(tap);
        presence.heard(System.nanoTime());
        if (presence.isLost() && !back(tap, presence, reading.atMicros())) {
            counts.missed(1);
            return;
        }
        if (intake.offer(tap.machine(), reading)) {
            counts.delivered();
        } else {
            counts.missed(1);
        }
    }

    private boolean back(Tap tap, Presence presence, long atMicros) {
        Channel channel = tap.settings().channel();
        if (!intake.offer(tap.machine(), new SourceBack(channel, atMicros))) {
            return false;
        }
        presence.reportedBack();
        if (losses.get(tap).isReturnNews()) {
            LOG.info("{} {} is back at {}", tap.machine(), channel.key(), endpoint);
        }
        return true;
    }

    private String reason(Tap tap, long silentNanos, LinkFault fault) {
        return FaultWords.english(
                "silent",
                endpoint,
                tap.place(),
                Numbers.number(Language.ENGLISH, silentNanos / 1e9, 1),
                fault.words());
    }
}
