package leat.instruct;

import static java.util.Objects.requireNonNull;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.LongSupplier;
import leat.config.InstructionSettings;
import leat.config.MachineSettings;
import leat.instruct.Tally.End;
import leat.mqtt.MqttLink;
import leat.store.InstructionBox;
import leat.store.NonceBook;
import leat.store.StoreException;
import leat.work.Worker;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Takes people's signed instructions from an MQTT topic and leaves them in the box of the store,
 * where the daemon takes them up as it takes up those of the command line. A message is followed
 * only if a person of the site has signed it, lately, and it has never been seen before; the nonce
 * is on the disk before anything is done. Whoever fails in this is told "refused" and no more. A
 * person who has passed is told why something cannot be done.
 *
 * <p>The link is borrowed: build this before the link is started. Messages come on a thread of the
 * MQTT library, which looks at the signature; then they wait in a short queue, the forged ones in
 * another. One thread of its own deals with them. The store is opened for each instruction and
 * closed again.
 */
public final class Reception implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Reception.class);

    /** Some twenty times an instruction with a sentence or two. */
    static final int LONGEST_BYTES = 4_096;

    private static final Duration LET_ANSWER_END = Duration.ofMillis(300);
    private static final Duration CLOSE_WITHIN = Duration.ofMillis(600);

    /** A look into the queue even if nobody said that a message came. */
    private static final Duration IDLE = Duration.ofSeconds(5);

    private static final long MICROS_PER_SECOND = 1_000_000;

    private final InstructionSettings settings;
    private final MqttLink link;
    private final Path store;
    private final LongSupplier nowMicros;
    private final Seal seal;
    private final List<MachineSettings> machines;
    private final Tally tally = new Tally(LOG, System::nanoTime);
    private final WaitingMessages waiting;
    private final Worker worker =
            new Worker("leat-instructions", this::step, LET_ANSWER_END, CLOSE_WITHIN);

    /**
     * Asks the link for the topic.
     *
     * @param store the database file of a running leat
     * @param machines those of the site
     * @param nowMicros the time of day, microseconds UTC
     * @throws IllegalArgumentException when a token was not fetched
     */
    public Reception(
            InstructionSettings settings,
            MqttLink link,
            Path store,
            List<MachineSettings> machines,
            LongSupplier nowMicros) {
        this.settings = requireNonNull(settings, "settings");
        this.link = requireNonNull(link, "link");
        this.store = requireNonNull(store, "store");
        this.nowMicros = requireNonNull(nowMicros, "nowMicros");
        this.seal = new Seal(settings.topic(), settings.people());
        this.waiting = new WaitingMessages(seal, System::nanoTime);
        this.machines = List.copyOf(machines);
        link.subscribe(settings.topic(), 1, (topic, payload, kept) -> arrived(payload, kept));
    }

    /** Must return at once. */
    void arrived(byte[] payload, boolean retained) {
        if (retained) {
            tally.refused(End.RETAINED, "");
        } else if (!waiting.offer(payload)) {
            tally.refused(End.OVERRUN, "");
        }
        worker.wake();
    }

    /** Begins to deal with messages. Returns at once. */
    public void start() {
        worker.start();
    }

    /**
     * Deals with the message whose turn it is, if any, and answers.
     *
     * @return how long nothing is to be done unless one comes
     */
    Duration step() {
        waiting.next().ifPresent(m -> link.publish(settings.replyTopic(), answer(m), 1, false));
        return waiting.untilNext().orElse(IDLE);
    }

    /** Lets the message be answered that is being dealt with; those that wait are dropped. */
    @Override
    public void close() {
        worker.close();
    }

    /** The answer to a message, which has been dealt with. */
    String answer(byte[] message) {
        ObjectNode answer =
                JsonNodeFactory.instance
                        .objectNode()
                        .put("schema", "leat.reply/1")
                        .put("to", Seal.mark(message));
        try {
            Optional<Passed> passed = passed(message);
            if (passed.isPresent()) {
                long number = follow(passed.get());
                tally.accepted();
                return answer.put("answer", "accepted").put("instruction", number).toString();
            }
        } catch (Refused e) {
            tally.refused(End.NOT_FOLLOWED, e.getMessage());
            answer.put("reason", e.getMessage());
        } catch (StoreException e) {
            tally.refused(End.NOT_FOLLOWED, e.getMessage());
            answer.put("reason", "the store does not take it now; sign it anew later");
        }
        return answer.put("answer", "refused").toString();
    }

    /**
     * @param person who has signed
     */
    private record Passed(String person, SignedWords words) {}

    /** Empty for what is refused without a word; it is counted. */
    private Optional<Passed> passed(byte[] message) {
        if (message.length > LONGEST_BYTES) {
            return none(End.OVERSIZED, "");
        }
        Optional<Seal.Opened> opened = seal.open(message);
        if (opened.isEmpty()) {
            return none(End.UNSIGNED, "");
        }
        String person = opened.get().person();
        SignedWords words;
        try {
            words = SignedWords.read(opened.get().words());
        } catch (Refused e) {
            return none(End.NOT_FOLLOWED, person + ": " + e.getMessage());
        }
        long aheadSeconds = aheadSeconds(words);
        if (Math.abs(aheadSeconds) > settings.window().toSeconds()) {
            return none(
                    End.STALE,
                    person
                            + " signed it "
                            + Math.abs(aheadSeconds)
                            + " s "
                            + (aheadSeconds > 0 ? "ahead of" : "before")
                            + " this computer's time; compare the clocks");
        }
        return isNew(person, words)
                ? Optional.of(new Passed(person, words))
                : none(End.REPEATED, person + " has signed it");
    }

    private Optional<Passed> none(End end, String detail) {
        tally.refused(end, detail);
        return Optional.empty();
    }

    private long aheadSeconds(SignedWords words) {
        long now = Math.floorDiv(nowMicros.getAsLong(), MICROS_PER_SECOND);
        long farOff = Long.MAX_VALUE / 4;
        return Math.max(-farOff, Math.min(farOff, words.atSeconds())) - now;
    }

    private boolean isNew(String person, SignedWords words) {
        try (NonceBook seen = NonceBook.open(store)) {
            return seen.take(person, words.nonce(), words.atSeconds());
        }
    }

    private long follow(Passed passed) throws Refused {
        try (InstructionBox box = InstructionBox.open(store)) {
            String by = passed.person() + " by MQTT";
            Requests requests = new Requests(box, machines, by, nowMicros.getAsLong());
            long number = Acts.request(passed.words(), requests).leaveIn(box);
            LOG.info("instruction {} by MQTT, signed by {}", number, passed.person());
            return number;
        }
    }

    public ReceptionHealth health() {
        return tally.health();
    }
}
