package leat.acquire.modbus;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.channels.SocketChannel;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import leat.acquire.Intake;
import leat.config.ConnectionSettings;
import leat.work.KnownFaults;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One connection among those that share the polling thread: its schedule, and when its next turn
 * is. What fails in it is its own fault and nobody else's. Confined to the polling thread.
 */
final class PolledConnection implements Lookout {

    /** What it has its turn for; no lambda, for this is done ten thousand times a second. */
    private enum Part {
        BEGIN,
        READY,
        EXPIRE
    }

    private static final Logger LOG = LoggerFactory.getLogger(PolledConnection.class);

    /** 2^64 over the golden ratio: spreads the polls of many connections over the period. */
    private static final long SPREAD = 0x9E37_79B9_7F4A_7C15L;

    private final String name;
    private final long periodNanos;
    private final PollingThread thread;
    private final PollCounts counts;
    private final PollJitter jitter;
    private final Poller poller;
    private final KnownFaults known = new KnownFaults();
    private Schedule schedule;
    private long turnNanos;

    PolledConnection(
            ConnectionSettings.ModbusTcp settings,
            List<Tap> taps,
            Intake intake,
            PollingThread thread,
            PollCounts counts,
            PollJitter jitter) {
        this.name = settings.name();
        this.periodNanos = settings.poll().toNanos();
        this.thread = thread;
        this.counts = counts;
        this.jitter = jitter;
        this.poller = new Poller(settings, taps, this, intake, counts);
        this.schedule = new Schedule(0, periodNanos);
    }

    String name() {
        return name;
    }

    /** Silence counts from the deadline of the first poll. */
    void begin(long startNanos) {
        double share = (name.hashCode() * SPREAD >>> 11) * 0x1p-53;
        schedule = new Schedule(startNanos + (long) (share * periodNanos), periodNanos);
        poller.listen(schedule.deadlineNanos());
        setTurn(startNanos);
    }

    void end() {
        poller.close();
    }

    /** When it is to have its turn by {@link #turn}. */
    long turnNanos() {
        return turnNanos;
    }

    /** Sets its next turn. */
    void setTurn(long nowNanos) {
        turnNanos = nextTurn(nowNanos);
    }

    /** True when it has come to want its turn sooner than is set. */
    boolean wantsItsTurnSooner(long nowNanos) {
        return nextTurn(nowNanos) - turnNanos < 0;
    }

    /**
     * The time-out of what it waits for, or the next deadline. While it waits, the next deadline is
     * a turn too: then a reply, which is the rule, has nothing to move.
     */
    private long nextTurn(long nowNanos) {
        if (!poller.isPolling()) {
            return schedule.deadlineNanos();
        }
        long deadline = schedule.deadlineNanos() + periodNanos;
        long expiry = poller.expiryNanos();
        return deadline - nowNanos > 0 && deadline - expiry < 0 ? deadline : expiry;
    }

    /**
     * Polls, or gives up waiting, if that is due. A reply that lies there is no late one: the
     * program itself may have paused.
     */
    void turn(long nowNanos) {
        if (poller.isPolling()) {
            if (isExpired(nowNanos)) {
                guarded(Part.READY, nowNanos);
                if (poller.isPolling() && isExpired(nowNanos)) {
                    guarded(Part.EXPIRE, nowNanos);
                }
            }
        } else if (nowNanos - schedule.deadlineNanos() >= 0) {
            jitter.add(nowNanos - schedule.deadlineNanos());
            guarded(Part.BEGIN, nowNanos);
        }
    }

    private boolean isExpired(long nowNanos) {
        return nowNanos - poller.expiryNanos() >= 0;
    }

    /** Something has come for it, or may have. */
    void ready(long nowNanos) {
        guarded(Part.READY, nowNanos);
    }

    private void guarded(Part part, long nowNanos) {
        boolean isPoll = part == Part.BEGIN || poller.isPolling();
        try {
            switch (part) {
                case BEGIN -> poller.begin(nowNanos);
                case READY -> poller.ready();
                case EXPIRE -> poller.expire();
            }
        } catch (RuntimeException | Error e) {
            counts.fault("fault in leat while polling: " + e);
            if (known.isNew(e.toString())) {
                LOG.error("{}: a poll failed, going on", name, e);
            }
            poller.close();
        }
        if (isPoll && !poller.isPolling()) {
            counts.missed(schedule.advance(nowNanos));
        }
    }

    @Override
    public void watch(SocketChannel channel, int operations) throws IOException {
        channel.register(thread.selector(), operations, this);
    }

    @Override
    public CompletableFuture<InetAddress> lookUp(String host) {
        return thread.lookUp(host, this);
    }
}
