package leat.acquire.modbus;

import static java.util.function.Function.identity;
import static java.util.stream.Collectors.toMap;

import java.util.List;
import java.util.Map;
import leat.acquire.Intake;
import leat.config.ConnectionSettings;
import leat.words.FaultWords;
import leat.work.KnownFaults;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One poll: reads each block of the plan once, one after the other, and hands over what came of it.
 * Nothing here waits: {@link #begin} asks the first question, and each answer or fault leads on to
 * the next. A unit that gives no reply is left alone for a while, so that it does not slow down the
 * others behind its gateway. Confined to the polling thread.
 */
final class Poller {

    private static final Logger LOG = LoggerFactory.getLogger(Poller.class);

    private final String name;
    private final Link link;
    private final Intake intake;
    private final PollCounts counts;
    private final Delivery delivery;
    private final KnownFaults faults = new KnownFaults();
    private final Retry connecting;
    private final Map<Integer, Retry> units;
    private ReadPlan plan;

    private boolean polling;
    private long pollNanos;
    private int next;
    private boolean usedBefore;
    private long askedMicros;

    Poller(
            ConnectionSettings.ModbusTcp settings,
            List<Tap> taps,
            Lookout lookout,
            Intake intake,
            PollCounts counts) {
        this.name = settings.name();
        this.link = new Link(settings.host(), settings.port(), settings.timeout(), lookout);
        this.intake = intake;
        this.counts = counts;
        this.plan = ReadPlan.of(taps);
        this.delivery = new Delivery(link.endpoint(), settings.poll(), taps, intake, counts);
        this.connecting = new Retry(settings.reconnectMax());
        this.units =
                taps.stream()
                        .map(tap -> tap.register().unitId())
                        .distinct()
                        .collect(toMap(identity(), unit -> new Retry(settings.reconnectMax())));
    }

    /** Comes before the first poll: a silence does not begin before {@code sinceNanos}. */
    void listen(long sinceNanos) {
        delivery.begin(sinceNanos);
    }

    /** Begins a poll. It takes a time-out for each unit that has just fallen silent at most. */
    void begin(long nowNanos) {
        polling = true;
        pollNanos = nowNanos;
        next = 0;
        goOn();
    }

    /** True from {@link #begin} until each block was read or given up. */
    boolean isPolling() {
        return polling;
    }

    /** When {@link #expire} is due; without meaning between polls. */
    long expiryNanos() {
        return link.expiryNanos();
    }

    /** Something has come, or may have. */
    void ready() {
        try {
            switch (link.progress()) {
                case CONNECTED -> goOn();
                case ANSWERED -> {
                    counts.answered();
                    delivery.words(block(), middle(), link.words());
                    answered();
                    done();
                }
                case NOTHING -> {}
            }
        } catch (DeviceRefused refusal) {
            refused(block(), refusal);
        } catch (LinkFault fault) {
            if (polling) {
                broken(fault);
                goOn();
            } else {
                counts.failed(
                        saidOnce(FaultWords.english("where", link.endpoint(), fault.words())));
            }
        }
    }

    /** What was waited for has not come in time. */
    void expire() {
        broken(link.expire());
        goOn();
    }

    /**
     * Breaks the poll off, if there is one, and closes the connection; the next poll may follow.
     */
    void close() {
        polling = false;
        link.close();
    }

    private Block block() {
        return plan.blocks().get(next);
    }

    private void done() {
        next++;
        goOn();
    }

    /** Goes on until there is something to wait for, or the end of the poll. */
    private void goOn() {
        while (next < plan.blocks().size()) {
            Retry unit = unit();
            if (!unit.isDue(pollNanos)) {
                unit.fault().ifPresent(this::silent);
            } else if (!link.isOpen() && !connecting.isDue(pollNanos)) {
                connecting.fault().ifPresent(this::silent);
            } else if (isAsked()) {
                return;
            }
        }
        polling = false;
    }

    /**
     * @return true when there is something to wait for
     */
    private boolean isAsked() {
        try {
            if (!link.isOpen() && link.open() != Link.Event.CONNECTED) {
                return true;
            }
            usedBefore = link.hasAnswered();
            askedMicros = intake.nowMicros();
            link.ask(block());
            return true;
        } catch (LinkFault fault) {
            broken(fault);
            return false;
        }
    }

    private void answered() {
        unit().answered();
        connecting.answered();
    }

    private void refused(Block block, DeviceRefused refusal) {
        answered();
        String words = FaultWords.english("at", link.endpoint(), block.place(), refusal.words());
        counts.refused(words);
        if (block.taps().size() > 1 && refusal.mayBeTheExtent()) {
            saidOnce(words + "; from now on each channel of it is read alone");
            plan = plan.split(block);
            goOn();
        } else {
            saidOnce(words);
            delivery.refused(block, middle());
            done();
        }
    }

    /**
     * A connection that has worked before may only have been closed: the block has a second try.
     */
    private void broken(LinkFault fault) {
        counts.failed(
                saidOnce(
                        FaultWords.english("at", link.endpoint(), block().place(), fault.words())));
        if (fault.isBeforeConnected()) {
            connecting.failed(fault, System.nanoTime());
            silent(fault);
        } else if (!usedBefore || !fault.isOfTheConnection()) {
            unit().failed(fault, System.nanoTime());
            silent(fault);
        }
    }

    private void silent(LinkFault fault) {
        delivery.silent(block(), fault);
        next++;
    }

    private Retry unit() {
        return units.get(block().unitId());
    }

    /** The value was taken somewhere between request and reply: the middle halves the error. */
    private long middle() {
        return askedMicros + (intake.nowMicros() - askedMicros) / 2;
    }

    private String saidOnce(String fault) {
        if (faults.isNew(fault)) {
            LOG.warn("{}: {}", name, fault);
        }
        return fault;
    }
}
