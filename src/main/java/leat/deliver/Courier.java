package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.TreeSet;
import java.util.function.BooleanSupplier;
import java.util.function.DoubleSupplier;
import java.util.function.LongSupplier;
import leat.signal.PlainText;
import leat.store.Message;
import leat.store.Owed;
import leat.words.FaultWords;
import leat.work.Trouble;
import leat.work.Worker;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Delivers the messages of one route: in order, at least once; in quiet hours only what is
 * CRITICAL. A message that cannot be delivered holds back those behind it and is tried again after
 * a pause that grows from 1 s to 60 s, or at once when the route says that it is reachable again. A
 * message that the other side refuses for good, or that has grown too old while the route failed,
 * is given up: that is noted and told to the other routes, and the next one has its turn. It owns
 * one thread, so that a dead route delays nobody else.
 *
 * <p>{@code step} is for that thread alone (or for a test that never calls {@code start}); all
 * other methods are thread-safe.
 */
public final class Courier implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Courier.class);

    private static final Duration FIRST_PAUSE = Duration.ofSeconds(1);

    /** However long the other side asks to be left alone. */
    private static final Duration LONGEST_ASKED = Duration.ofMinutes(15);

    private static final Duration LONGEST_PAUSE = Duration.ofSeconds(60);

    /** A look into the outbox even if no nudge came. */
    private static final Duration IDLE = Duration.ofSeconds(5);

    /**
     * A new reason for the same failure goes to the log no sooner, for some servers put a number
     * into every answer; leat's own choice.
     */
    private static final Duration SAY_AGAIN = Duration.ofMinutes(10);

    private static final int BATCH = 50;
    private static final Duration CLOSE_WITHIN = Duration.ofSeconds(2);
    private static final int LONGEST_REASON = 400;

    private final Route route;
    private final Outbox outbox;
    private final Patience patience;
    private final BooleanSupplier quiet;
    private final LongSupplier nanos;
    private final DoubleSupplier random;
    private final Trouble trouble;
    private final Worker worker;

    private boolean started;
    private volatile boolean reachableAgain;

    // of the courier's thread alone
    private long settledUpTo;
    private final TreeSet<Long> settledBeyond = new TreeSet<>();
    private boolean overtakes;
    private long pauseEndsNanos;

    private volatile long delivered;
    private volatile long failed;
    private volatile long givenUp;
    private volatile String lastReason = "";

    /**
     * @param patience when to give a message up
     * @param quiet whether only what is CRITICAL may be told now
     * @param nanos monotonic clock, as {@code System::nanoTime}
     * @param random numbers from 0 to below 1, which spread the pauses of many couriers
     */
    public Courier(
            Route route,
            Outbox outbox,
            Patience patience,
            BooleanSupplier quiet,
            LongSupplier nanos,
            DoubleSupplier random) {
        this.route = requireNonNull(route, "route");
        this.outbox = requireNonNull(outbox, "outbox");
        this.patience = requireNonNull(patience, "patience");
        this.quiet = requireNonNull(quiet, "quiet");
        this.nanos = requireNonNull(nanos, "nanos");
        this.random = requireNonNull(random, "random");
        this.trouble = new Trouble(SAY_AGAIN, nanos);
        this.worker =
                new Worker("leat-courier-" + route.name(), this::step, Duration.ZERO, CLOSE_WITHIN);
    }

    /** Without quiet hours. */
    public Courier(
            Route route,
            Outbox outbox,
            Patience patience,
            LongSupplier nanos,
            DoubleSupplier random) {
        this(route, outbox, patience, () -> false, nanos, random);
    }

    /** Starts the route and begins to deliver. Further calls do nothing. */
    public synchronized void start() {
        if (!started && !worker.isClosing()) {
            started = true;
            route.start(this::reachable);
            worker.start();
        }
    }

    /** To be called after a commit: there may be something to deliver. Returns at once. */
    public void nudge() {
        worker.wake();
    }

    /** How it goes. */
    public CourierHealth health() {
        return new CourierHealth(route.name(), delivered, failed, givenUp, lastReason);
    }

    /**
     * Delivers what is due, up to a small batch.
     *
     * @return how long nothing needs to be done unless a nudge comes; zero when more may be due
     */
    Duration step() {
        long left = pauseEndsNanos - nanos.getAsLong();
        if (trouble.times() > 0 && left > 0 && !reachableAgain) {
            return Duration.ofNanos(left);
        }
        reachableAgain = false;
        try {
            boolean silent = quiet.getAsBoolean();
            Due due = due(silent);
            overtakes = silent || !due.isAll();
            return deliver(unsettled(due.owed()), silent);
        } catch (RuntimeException e) {
            LOG.debug("route {}: failed", route.name(), e);
            return pause("", FaultWords.english("unexpected", e.toString()), Duration.ZERO);
        }
    }

    private Due due(boolean silent) {
        int atMost = BATCH + settledBeyond.size();
        return silent
                ? outbox.dueInQuietHours(route.name(), settledUpTo, atMost)
                : outbox.due(route.name(), settledUpTo, atMost);
    }

    /** What has been settled may still be shown as due until the next commit. */
    private List<Owed> unsettled(List<Owed> due) {
        return due.stream()
                .filter(owed -> !settledBeyond.contains(owed.number()))
                .limit(BATCH)
                .toList();
    }

    /**
     * In quiet hours what comes later overtakes what waits for their end, and at any time what
     * waits in a store that cannot be read.
     */
    private void settled(long number) {
        if (overtakes) {
            settledBeyond.add(number);
        } else {
            settledUpTo = number;
            settledBeyond.headSet(number, true).clear();
        }
    }

    private Duration deliver(List<Owed> due, boolean silent) {
        for (int i = 0; i < due.size(); i++) {
            if (worker.isClosing() || quiet.getAsBoolean() != silent) {
                return Duration.ZERO;
            }
            Owed owed = due.get(i);
            DeliveryResult result = attempt(owed.message());
            switch (result.kind()) {
                case DELIVERED -> {
                    outbox.delivered(owed.number());
                    settled(owed.number());
                    delivered++;
                    recovered();
                }
                case REFUSED -> {
                    giveUp(List.of(owed), result.reason());
                    recovered();
                }
                case NOT_NOW -> {
                    return notNow(due.subList(i, due.size()), result);
                }
            }
        }
        recovered();
        return due.size() < BATCH ? IDLE : Duration.ZERO;
    }

    private DeliveryResult attempt(Message message) {
        try {
            return route.deliver(message);
        } catch (RuntimeException e) {
            LOG.debug("route {}: failed", route.name(), e);
            return DeliveryResult.notNow(FaultWords.english("unexpected", e.toString()));
        }
    }

    private void giveUp(List<Owed> messages, String why) {
        String reason = PlainText.harmless(why, LONGEST_REASON);
        outbox.givenUp(messages, reason);
        messages.forEach(owed -> settled(owed.number()));
        givenUp += messages.size();
        lastReason = reason;
        for (Owed owed : messages) {
            LOG.error("route {}: gave up {}: {}", route.name(), owed.message().id(), reason);
        }
    }

    /** The first of {@code waiting} could not be delivered. */
    private Duration notNow(List<Owed> waiting, DeliveryResult result) {
        Owed tried = waiting.get(0);
        Duration pause = pause(tried.message().id() + ": ", result.reason(), result.pause());
        if (!worker.isClosing()) {
            outbox.attempted(tried.number());
            Duration failing = trouble.lasting();
            List<Owed> tooOld =
                    waiting.stream()
                            .takeWhile(owed -> patience.isOver(owed.message(), failing))
                            .toList();
            if (!tooOld.isEmpty()) {
                giveUp(tooOld, FaultWords.english("given-up", patience.words(), result.reason()));
            }
        }
        return pause;
    }

    private void recovered() {
        trouble.over()
                .ifPresent(
                        past ->
                                LOG.info(
                                        "route {}: works again after {} tries",
                                        route.name(),
                                        past.times()));
    }

    /**
     * @param what could not be done; may be empty
     */
    private Duration pause(String what, String reason, Duration asked) {
        failed++;
        lastReason = PlainText.harmless(what + reason, LONGEST_REASON);
        if (trouble.isNews(reason) && !worker.isClosing()) {
            LOG.warn("route {}: not delivered, trying again: {}", route.name(), lastReason);
        }
        Duration pause = pauseAfter(trouble.times(), random.getAsDouble());
        Duration polite = asked.compareTo(LONGEST_ASKED) > 0 ? LONGEST_ASKED : asked;
        pause = polite.compareTo(pause) > 0 ? polite : pause;
        pauseEndsNanos = nanos.getAsLong() + pause.toNanos();
        return pause;
    }

    /** Half of the doubled pause is fixed, half is chance; never under 1 s, never over 60 s. */
    static Duration pauseAfter(long failures, double chance) {
        long doublings = Math.min(failures - 1, 6);
        long full = Math.min(FIRST_PAUSE.toMillis() << doublings, LONGEST_PAUSE.toMillis());
        long spread = full / 2 + (long) (full / 2.0 * chance);
        return Duration.ofMillis(Math.max(FIRST_PAUSE.toMillis(), spread));
    }

    private void reachable() {
        reachableAgain = true;
        worker.wake();
    }

    /**
     * Ends the thread and the route within 2 s; what is not delivered stays owed. Further calls do
     * nothing.
     */
    @Override
    public void close() {
        worker.close();
        route.close();
    }
}
