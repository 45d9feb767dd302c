package leat.acquire.modbus;

import static java.util.function.Function.identity;
import static java.util.stream.Collectors.toMap;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.acquire.Intake;
import leat.config.ConnectionSettings;
import leat.work.KnownFaults;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One poll: reads each block of the plan once and hands over what came of it. A unit that gives no
 * reply is left alone for a while, so that it does not slow down the others behind its gateway.
 * Thread-confined.
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

    Poller(
            ConnectionSettings.ModbusTcp settings,
            List<Tap> taps,
            Link link,
            Intake intake,
            PollCounts counts) {
        this.name = settings.name();
        this.link = link;
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

    /** Comes before the first poll. */
    void begin() {
        delivery.begin();
    }

    /**
     * Polls once. Takes a time-out for each unit that has just fallen silent and one for the
     * connection at most; {@link Link#abort} ends it at once.
     */
    void step() {
        long pollNanos = System.nanoTime();
        for (Block block : plan.blocks()) {
            Optional<LinkFault> fault = poll(block, pollNanos);
            if (link.isAborted()) {
                return;
            }
            fault.ifPresent(why -> delivery.silent(block, why));
        }
    }

    /**
     * @return why there was no reply; empty if there was one
     */
    private Optional<LinkFault> poll(Block block, long pollNanos) {
        Retry unit = units.get(block.unitId());
        if (!unit.isDue(pollNanos)) {
            return unit.fault();
        }
        boolean usedBefore = link.hasAnswered();
        Optional<LinkFault> unconnected = connect(block, pollNanos);
        if (unconnected.isPresent()) {
            return unconnected;
        }
        try {
            exchange(block);
        } catch (LinkFault fault) {
            failed(block, fault);
            if (usedBefore && fault.isOfTheConnection()) {
                return poll(block, pollNanos);
            }
            unit.failed(fault, System.nanoTime());
            return Optional.of(fault);
        }
        unit.answered();
        connecting.answered();
        return Optional.empty();
    }

    private Optional<LinkFault> connect(Block block, long pollNanos) {
        if (link.isOpen()) {
            return Optional.empty();
        }
        if (!connecting.isDue(pollNanos)) {
            return connecting.fault();
        }
        try {
            link.open();
            return Optional.empty();
        } catch (LinkFault fault) {
            connecting.failed(fault, System.nanoTime());
            failed(block, fault);
            return Optional.of(fault);
        }
    }

    private void exchange(Block block) throws LinkFault {
        long askedMicros = intake.nowMicros();
        try {
            int[] words = link.read(block);
            counts.answered();
            delivery.words(block, middle(askedMicros), words);
        } catch (DeviceRefused refusal) {
            refused(block, refusal, middle(askedMicros));
        }
    }

    /** The value was taken somewhere between request and reply: the middle halves the error. */
    private long middle(long askedMicros) {
        return askedMicros + (intake.nowMicros() - askedMicros) / 2;
    }

    private void refused(Block block, DeviceRefused refusal, long atMicros) throws LinkFault {
        String words = link.endpoint() + ", " + block.place() + ": " + refusal.words();
        counts.refused(words);
        if (block.taps().size() > 1 && refusal.mayBeTheExtent()) {
            warnOnce(words + "; from now on each channel of it is read alone");
            plan = plan.split(block);
            for (Block alone : ReadPlan.alone(block)) {
                exchange(alone);
            }
        } else {
            warnOnce(words);
            delivery.refused(block, atMicros);
        }
    }

    private void failed(Block block, LinkFault fault) {
        if (!link.isAborted()) {
            String words = link.endpoint() + ", " + block.place() + ": " + fault.words();
            counts.failed(words);
            warnOnce(words);
        }
    }

    private void warnOnce(String fault) {
        if (faults.isNew(fault)) {
            LOG.warn("{}: {}", name, fault);
        }
    }
}
