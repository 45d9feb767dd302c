package leat.service;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.Reason;
import leat.alarm.Refusal;
import leat.alarm.ServiceChange;
import leat.deliver.Changed;
import leat.deliver.MachineDay;
import leat.deliver.StoreNotice;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.store.Batch;
import leat.store.BegunAnew;
import leat.store.MachineInService;
import leat.store.Store;
import leat.store.StoreException;
import leat.store.StoredAlarm;
import leat.store.WaitingInstruction;
import leat.watch.Outcome;
import leat.words.FaultWords;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Feeds every watch and writes the store: takes what the sources delivered as it comes, and once a
 * second ticks the watches, takes up what people asked for, and commits all of it together. Nobody
 * is told of anything before its commit; what the store does not take is told from memory.
 *
 * <p>Confined to one thread, which is also the only one that writes the store.
 */
final class Engine {

    private static final Logger LOG = LoggerFactory.getLogger(Engine.class);
    private static final int DRAIN = 4_096;
    private static final int MOST_TICKS_AT_ONCE = 10;
    private static final long SNAPSHOT_MICROS = 60_000_000;

    /** With a disk that takes nothing, so many inputs are kept in memory: some 15 MB. */
    static final int MOST_WAITING_INPUTS = 150_000;

    /** Likewise. */
    static final int MOST_WAITING_OUTCOMES = 10_000;

    static final int MOST_WAITING_MESSAGES = 2_000;

    private final EventClock clock;
    private final Inbox inbox;
    private final Store store;
    private final InstructionInbox instructions;
    private final OwedMessages messages;
    private final UnstoredMessages unstored;
    private final String configHash;
    private final Map<String, Watched> machines = new LinkedHashMap<>();

    private final PendingMarks marks;

    private final Batch batch = new Batch();
    private final AlarmLatency latency = new AlarmLatency();
    private final Runnable afterCommit;
    private long nextTickMicros;
    private long lastSnapshotMicros;
    private volatile long inputsFed;
    private final StoreTrouble trouble = new StoreTrouble(System::nanoTime);

    /**
     * @param instructions where people's instructions wait
     * @param messages what is owed to whom
     * @param unstored where couriers find what the store does not take
     * @param afterCommit run after each commit that owed messages
     */
    Engine(
            EventClock clock,
            Inbox inbox,
            Store store,
            InstructionInbox instructions,
            OwedMessages messages,
            UnstoredMessages unstored,
            String configHash,
            List<Watched> watched,
            Runnable afterCommit) {
        this.clock = clock;
        this.inbox = inbox;
        this.store = store;
        this.instructions = instructions;
        this.messages = messages;
        this.marks = new PendingMarks(clock, messages);
        this.unstored = unstored;
        this.configHash = configHash;
        this.afterCommit = afterCommit;
        watched.forEach(w -> machines.put(w.name(), w));
        nextTickMicros = nextWholeSecond(clock.nowMicros());
        lastSnapshotMicros = clock.nowMicros();
    }

    private static long nextWholeSecond(long micros) {
        return Tick.before(micros) + Tick.PERIOD_MICROS;
    }

    /**
     * One round: some inputs, and the second's work when a second has passed.
     *
     * @return zero: it has waited for inputs itself, until the second was over
     */
    Duration step() throws InterruptedException {
        clock.discipline().ifPresent(this::stepClock);
        long untilTick = nextTickMicros - clock.nowMicros();
        if (untilTick > 0 && inbox.await(untilTick * 1_000, this::feed)) {
            inbox.drain(DRAIN, this::feed);
        }
        if (clock.nowMicros() >= nextTickMicros) {
            second();
        }
        return Duration.ZERO;
    }

    private void stepClock(ClockStep step) {
        LOG.warn("the clock was set {}; no episode spans it", ClockStepWords.of(step));
        machines.values().forEach(machine -> stepClock(machine, step));
        nextTickMicros = nextWholeSecond(step.atMicros());
    }

    private void stepClock(Watched machine, ClockStep step) {
        feed(machine, step);
        messages.clockSet(machine.name(), step, batch);
    }

    private void second() {
        inbox.drain(Integer.MAX_VALUE, this::feed);
        tick();
        takeUpInstructions();
        messages.second(clock.nowMicros(), batch);
        report();
        long now = clock.nowMicros();
        if (now - lastSnapshotMicros >= SNAPSHOT_MICROS || now < lastSnapshotMicros) {
            snapshot(now);
        }
        commit();
    }

    private void tick() {
        tickUntil(clock.nowMicros());
        machines.values().forEach(Watched::refreshGlance);
    }

    private void tickUntil(long atMicros) {
        long behind = (atMicros - nextTickMicros) / Tick.PERIOD_MICROS;
        if (behind > MOST_TICKS_AT_ONCE) {
            LOG.warn("the machine that leat runs on stood still for {} s", behind);
            nextTickMicros = nextWholeSecond(atMicros) - Tick.PERIOD_MICROS;
        }
        while (nextTickMicros <= atMicros) {
            Tick tick = new Tick(nextTickMicros);
            machines.values().forEach(machine -> feed(machine, tick));
            nextTickMicros += Tick.PERIOD_MICROS;
        }
    }

    /** What waited while a disk was slow is judged second by second all the same. */
    private void feed(String machine, Input input) {
        tickUntil(input.atMicros() - 1);
        feed(machines.get(machine), input);
    }

    /** Feeds one machine and keeps what it took and what it said for the next commit. */
    void feed(Watched machine, Input input) {
        long seq = machine.seq() + 1;
        machine.feed(input, outcome -> said(machine, seq, outcome));
        batch.fed(machine.name(), seq, input);
        inputsFed++;
    }

    private void said(Watched machine, long seq, Outcome outcome) {
        batch.said(machine.name(), seq, outcome, configHash);
        if (outcome instanceof Outcome.AlarmChanged changed) {
            owe(machine, changed);
        } else if (outcome instanceof Outcome.PhaseChanged changed) {
            messages.phaseChanged(machine.name(), changed.change(), batch);
        }
    }

    private void owe(Watched machine, Outcome.AlarmChanged changed) {
        messages.changed(machine.name(), changed.change(), changed.why(), batch);
        latency.decided(machine.lastReadingMicros());
    }

    /** A watch that has seen something before now learns that there is a gap. */
    void sayThatItWasDown() {
        List<StoredAlarm> standing = instructions.standingAlarms();
        long now = clock.nowMicros();
        stepClockMeanwhile(now);
        for (Watched machine : machines.values()) {
            if (machine.seq() > 0) {
                for (Channel channel : machine.settings().byChannel().keySet()) {
                    feed(machine, new SourceLost(channel, now, FaultWords.english("not-running")));
                }
                feed(machine, new Tick(Tick.before(now)));
                if (machine.isAfresh()) {
                    closeUnknown(machine, standing);
                    batch.snapshot(machine.snapshot(now)); // the next start finds where it stands
                }
            }
        }
    }

    /**
     * The clock may have been set while leat was down, and nobody saw by how much: time goes on
     * from where each machine's stood. Else all that comes would be late until the clock has caught
     * up, and nothing would be judged.
     */
    private void stepClockMeanwhile(long now) {
        Optional<ClockStep> furthest = Optional.empty();
        for (Watched machine : machines.values()) {
            Optional<ClockStep> step = machine.stepTo(now);
            step.ifPresent(missed -> stepClock(machine, missed));
            if (step.isPresent()
                    && (furthest.isEmpty()
                            || furthest.get().fromMicros() < step.get().fromMicros())) {
                furthest = step;
            }
        }
        furthest.ifPresent(
                step ->
                        LOG.warn(
                                "the clock was set while leat was down, as far as leat can tell {};"
                                        + " no episode spans it",
                                ClockStepWords.of(step)));
    }

    /**
     * Closes the alarms of a past that could not be taken up: a watch that starts afresh does not
     * know them and would never let them return. What still holds is raised anew.
     */
    private void closeUnknown(Watched machine, List<StoredAlarm> standing) {
        long now = clock.nowMicros();
        for (MachineInService serviced : instructions.inService()) {
            if (serviced.machine().equals(machine.name())) {
                ServiceChange end =
                        new ServiceChange(
                                now, false, now, "leat", "", Optional.of(Reason.WITHOUT_PAST));
                said(machine, machine.seq(), new Outcome.ServiceChanged(end));
            }
        }
        for (StoredAlarm alarm : standing) {
            if (alarm.machine().equals(machine.name())) {
                for (AlarmChange change : Afresh.closing(alarm.change(), now)) {
                    said(machine, machine.seq(), new Outcome.AlarmChanged(change));
                }
            }
        }
    }

    private void takeUpInstructions() {
        for (WaitingInstruction waiting : instructions.waiting()) {
            Watched machine = machines.get(waiting.machine());
            long now = clock.nowMicros();
            if (machine == null) {
                batch.refused(waiting.number(), now, new Refusal.NoSuchMachine(waiting.machine()));
            } else {
                Instruction instruction = waiting.takenUp(now);
                feed(machine, instruction);
                batch.taken(waiting.number(), machine.name(), machine.seq(), now);
            }
        }
    }

    private void report() {
        try {
            messages.daily(clock.nowMicros(), this::day, batch);
        } catch (StoreException e) {
            LOG.debug("the report of the day waits for the store", e);
        }
    }

    private MachineDay day(String machine, long fromMicros, long toMicros) {
        long read = machines.get(machine).lastReadingMicros();
        return new MachineDay(
                machine,
                instructions.startupsBetween(machine, fromMicros, toMicros),
                instructions.standingAlarms().stream()
                        .filter(a -> a.machine().equals(machine))
                        .count(),
                read == 0 ? OptionalLong.empty() : OptionalLong.of(read));
    }

    private void snapshot(long nowMicros) {
        for (Watched machine : machines.values()) {
            batch.snapshot(machine.snapshot(nowMicros));
        }
        lastSnapshotMicros = nowMicros;
    }

    private void commit() {
        marks.into(batch);
        messages.keep(batch);
        try {
            write();
        } catch (StoreException e) {
            trouble.failed(e, clock.nowMicros()).ifPresent(this::owe);
            tellFromMemory();
            return;
        } catch (RuntimeException e) {
            trouble.failed(e, clock.nowMicros()).ifPresent(this::owe);
            tellFromMemory();
            throw e;
        }
        unstored.clear();
        Optional<StoreNotice> over = trouble.over(batch.inputs());
        instructions.settled();
        latency.told(clock.nowMicros());
        batch.clear();
        over.ifPresent(this::owe);
        afterCommit.run();
    }

    private void write() {
        try {
            store.commit(batch);
        } catch (StoreException.Gone | StoreException.Damaged e) {
            beginAnew(e);
            store.commit(batch);
        }
    }

    /**
     * What waits is told meanwhile: to carry years over takes a while. The new file holds no
     * readings: a restart has to find where each machine stands.
     */
    private void beginAnew(StoreException why) {
        unstored.publish(batch.unstored());
        long now = clock.nowMicros();
        BegunAnew begun = store.beginAnew(why, now);
        snapshot(now);
        if (!begun.isCarried()) {
            batch.forgetInstructions();
            instructions.settled();
            messages.standing().forEach(this::sayAgain);
        }
        trouble.begunAnew(why, begun.words(), now).ifPresent(this::owe);
        messages.keepAll(batch);
    }

    /** So that people find the alarm and can acknowledge it; nobody is told a second time. */
    private void sayAgain(Changed standing) {
        Watched machine = machines.get(standing.machine());
        Outcome.AlarmChanged said = new Outcome.AlarmChanged(standing.change());
        if (machine != null && !batch.says(said)) {
            standing.number().ifPresent(number -> batch.numbered(standing.alarmId(), number));
            batch.said(standing.machine(), machine.seq(), said, configHash);
        }
    }

    private void tellFromMemory() {
        keepWithinBounds();
        unstored.publish(batch.unstored());
        latency.told(clock.nowMicros());
    }

    private void owe(StoreNotice notice) {
        messages.storeChanged(notice, clock.nowMicros(), batch);
    }

    private void keepWithinBounds() {
        int readings = 0;
        if (batch.inputs() >= MOST_WAITING_INPUTS) {
            snapshot(clock.nowMicros());
            readings = batch.letInputsGo();
        }
        int outcomes = batch.letOutcomesGo(MOST_WAITING_OUTCOMES);
        int owed = batch.letMessagesGo(MOST_WAITING_MESSAGES);
        trouble.letGo(readings, outcomes + owed);
    }

    /**
     * The last round of an orderly end: everything that came, a snapshot, and the commit.
     *
     * @return false when the store takes nothing: what waited in memory is lost, and that is said
     */
    boolean finish() {
        inbox.drain(Integer.MAX_VALUE, this::feed);
        snapshot(clock.nowMicros());
        commit();
        if (!trouble().isEmpty()) {
            LOG.error("store: {}; {} inputs are lost with the end", trouble(), batch.inputs());
        }
        return trouble().isEmpty();
    }

    /** Where couriers tell what became of a message. */
    DeliveryMarks marks() {
        return marks;
    }

    /** Inputs fed since the start; readable from any thread. */
    long inputsFed() {
        return inputsFed;
    }

    /** What is wrong with the store now; empty when nothing is. Readable from any thread. */
    String trouble() {
        return trouble.reason();
    }

    /** How long alarms took; meant for after the end. */
    AlarmLatency latency() {
        return latency;
    }
}
