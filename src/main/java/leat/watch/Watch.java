package leat.watch;

import java.util.Optional;
import java.util.function.Consumer;
import leat.alarm.AlarmBook;
import leat.alarm.AlarmChange;
import leat.alarm.Refusal;
import leat.alarm.Service;
import leat.measure.RestMeter;
import leat.measure.RestSpell;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.phase.PhaseFinder;
import leat.phase.PhaseReason;
import leat.phase.PhaseSettings;
import leat.rule.Baseline;
import leat.rule.JudgedRun;
import leat.rule.Learning;
import leat.rule.Lessons;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.RuleBook;
import leat.rule.Situation;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.wire.State;
import leat.wire.StateBytes;

/**
 * The fold: readings, ticks, losses, clock steps and instructions in; phases, measurements and
 * alarm changes out. The same inputs in the same order always give the same outcomes. Its whole
 * state can be written down and taken up again at any input. Thread-confined to its host.
 */
public final class Watch {

    /**
     * Version of what {@link #snapshot} writes. It rises only for a change that names cannot
     * bridge: a field that means something else under the same name, a constant that is gone. Until
     * 7 there were no names.
     */
    public static final int FORMAT = 10;

    /** A reading may arrive so long after the last tick; the host ticks each second. */
    private static final long MOST_AHEAD_MICROS = 5_000_000;

    private final WatchSettings settings;
    private final Limits limits;
    private final long clockMicros;
    private final Gauges gauges;
    private final PhaseFinder phases;
    private final Runs runs;
    private final RestMeter rest;
    private final RuleBook rules;
    private final AlarmBook alarms;
    private final Service service;
    private final Starts starts;
    private final CauseFinder causes;
    private final Feed entrance = new Feed();
    private Consumer<Outcome> outcomes = outcome -> {};
    private long tickMicros = Gauge.NEVER;
    private long outOfOrder;
    private long ahead;
    private int passedOver;

    public Watch(WatchSettings settings) {
        this.settings = settings;
        limits = settings.limits();
        clockMicros = limits.micros(Limit.SIGNAL_CLOCK);
        gauges = new Gauges(settings.wired());
        phases = new PhaseFinder(phaseSettings(limits), gauges, this::phaseChanged);
        rest =
                new RestMeter(
                        limits.micros(Limit.REST_ARM),
                        limits.get(Limit.REST_FALLING),
                        gauges.hasInlet());
        alarms = new AlarmBook(settings.machine(), limits, this::alarmChanged);
        service = new Service(limits, alarms, change -> tell(new Outcome.ServiceChanged(change)));
        rules =
                new RuleBook(
                        limits,
                        settings.wired(),
                        settings.baseline(),
                        alarms,
                        new LearningOutcomes());
        starts =
                new Starts(limits, gauges, phases, rules, this::startLookedAt, this::startMeasured);
        runs = new Runs(limits, gauges, phases, rules, this::situation, this::tell);
        causes = new CauseFinder(rules::baseline, this::climbing, runs::lasting);
    }

    private static PhaseSettings phaseSettings(Limits limits) {
        return new PhaseSettings(
                limits.micros(Limit.SIGNAL_BLIND),
                limits.get(Limit.REST_CLEAR),
                limits.get(Limit.RATIO_CRITICAL),
                limits.boostedAlonePsi(),
                limits.get(Limit.INLET_CRITICAL),
                limits.get(Limit.REST_FALLING));
    }

    /**
     * Takes the next input.
     *
     * @param input what arrived, at rising times of the host's own clock; a reading of a channel
     *     that was taken no later than the one before it is counted and dropped
     * @param into given every outcome of this input, in order, before the method returns
     */
    public void feed(Input input, Consumer<Outcome> into) {
        outcomes = into;
        input.to(entrance);
    }

    private void tell(Outcome outcome) {
        causes.accept(outcome);
        outcomes.accept(outcome);
    }

    private void alarmChanged(AlarmChange change) {
        outcomes.accept(causes.explained(change));
        runs.alarmChanged(change);
    }

    private Optional<Startup> climbing() {
        return starts.climbing(tickMicros);
    }

    private void startLookedAt(Startup soFar) {
        causes.lookedAt(soFar);
    }

    private void startMeasured(Outcome.StartupMeasured start) {
        tell(start);
        runs.startMeasured(start);
    }

    /** The run that lasts now and how it is judged so far; looking changes nothing. */
    public Optional<JudgedRun> runSoFar() {
        return runs.soFar(tickMicros);
    }

    /** What the line is doing now, for a live display. */
    public Glance glance() {
        return new Glance(
                phases.phase(),
                tickMicros,
                gauges.inlet().isKnown(),
                gauges.inlet().latest(),
                gauges.boosted().isKnown(),
                gauges.boosted().latest(),
                outOfOrder,
                ahead,
                gauges.disbelieved());
    }

    /** Passes on what is learned of the machine. */
    private final class LearningOutcomes implements Lessons {

        @Override
        public void progressed(Learning learning) {
            tell(new Outcome.LearningProgressed(learning));
        }

        @Override
        public void learned(Baseline baseline) {
            tell(new Outcome.BaselineLearned(baseline));
        }
    }

    /** The different things that can be fed. */
    private final class Feed implements Input.Receiver {

        @Override
        public void reading(Reading reading) {
            read(reading);
        }

        @Override
        public void tick(Tick tick) {
            pass(tick.atMicros());
        }

        @Override
        public void sourceLost(SourceLost lost) {
            if (!gauges.isWired(lost.channel())) {
                return;
            }
            if (lost.channel() == Channel.INLET) {
                phases.loseSight(lost.atMicros(), PhaseReason.INLET_LOST);
            } else if (lost.channel() == Channel.BOOSTED) {
                phases.loseSight(lost.atMicros(), PhaseReason.BOOSTED_LOST);
            }
            gauges.of(lost.channel()).lose(lost);
        }

        @Override
        public void sourceBack(SourceBack back) {
            gauges.of(back.channel()).comeBack();
        }

        @Override
        public void clockStep(ClockStep step) {
            runs.forget(step.fromMicros());
            phases.forget(step.fromMicros());
            gauges.forget(step.atMicros());
            starts.forget();
            rest.drop();
            rules.forget();
            alarms.step(step.fromMicros(), step.atMicros());
            service.step(step.fromMicros(), step.atMicros());
            causes.step(step.fromMicros(), step.atMicros());
            tickMicros = step.atMicros();
        }

        @Override
        public void instruction(Instruction instruction) {
            follow(instruction);
        }
    }

    /** A channel that the machine does not have is not looked at, whatever is told of it. */
    private void read(Reading arrived) {
        if (!gauges.isWired(arrived.channel())) {
            return;
        }
        if (tickMicros != Gauge.NEVER && arrived.atMicros() - tickMicros > MOST_AHEAD_MICROS) {
            ahead++;
            return;
        }
        Gauge gauge = gauges.of(arrived.channel());
        Reading reading = arrived.at(gauge.clock().timeOf(arrived, clockMicros));
        if (reading.atMicros() <= gauge.latestMicros()) {
            outOfOrder++;
            return;
        }
        gauge.show(reading);
        rules.read(reading);
        runs.read(reading);
        if (!reading.quality().isUsable()) {
            return;
        }
        starts.read(reading);
        switch (reading.channel()) {
            case BOOSTED -> {
                rest.boostedRead(reading.atMicros(), reading.value());
                phases.boostedRead(reading.atMicros(), reading.value());
            }
            case RUNNING, VALVE -> phases.contactRead(reading.atMicros());
            case INLET, FILTERED, CUTTING -> {
                // no phase begins by it
            }
        }
    }

    private void pass(long atMicros) {
        if (tickMicros != Gauge.NEVER && atMicros <= tickMicros) {
            outOfOrder++;
            return;
        }
        tickMicros = atMicros;
        gauges.pass(atMicros);
        phases.tick(atMicros, rules.riseDeadlineMicros());
        starts.tick(atMicros, runs.levels().demand());
        if (phases.phase() == Phase.REST) {
            rest.tick(atMicros, gauges, phases.boostedSeconds()).ifPresent(this::tellRest);
        }
        rules.tick(situation(atMicros));
        runs.tick(atMicros);
        alarms.tick(atMicros);
        if (service.isOverdue(atMicros)) {
            judgeAfresh(atMicros);
            service.endOverdue(atMicros);
        }
    }

    /** What was found while hands were on the line says nothing of how they leave it. */
    private void judgeAfresh(long atMicros) {
        service.foundMeanwhile().forEach(rule -> rules.letGo(rule, situation(atMicros)));
        rules.serviced(atMicros);
    }

    private Situation situation(long atMicros) {
        return new Situation(
                atMicros,
                phases.phase(),
                phases.mayBeShut(),
                phases.startMicros(),
                Math.max(phases.stopMicros(), phases.movedMicros()),
                gauges,
                phases.boostedSeconds(),
                runs.levels());
    }

    private void phaseChanged(PhaseChange change) {
        tell(new Outcome.PhaseChanged(change));
        runs.phaseChanges(change);
        starts.phaseChanged(change);
        runs.phaseChanged(change);
        switch (change.to()) {
            case RISE ->
                    rest.end(change.atMicros(), Absence.NEXT_START_CAME).ifPresent(this::tellRest);
            case FALL -> rest.stopped(phases.stopMicros(), starts.boosted());
            case REST -> rest.open(phases.stopMicros());
            case BLIND ->
                    rest.end(change.atMicros(), Absence.NOT_BOTH_GAUGES).ifPresent(this::tellRest);
            case STEADY -> {
                // the start has been seen; its numbers come when its time is up
            }
        }
    }

    private void tellRest(RestSpell spell) {
        tell(new Outcome.RestMeasured(spell));
        rules.rested(spell);
    }

    private void follow(Instruction instruction) {
        follow(instruction, instruction.order())
                .ifPresent(why -> tell(new Outcome.InstructionRefused(instruction, why)));
    }

    private Optional<Refusal> follow(Instruction instruction, Order order) {
        if (order instanceof Order.AboutAlarm) {
            return alarms.follow(instruction);
        }
        if (order instanceof Order.Journal journal) {
            return write(instruction.atMicros(), instruction.by(), journal);
        }
        throw new IllegalArgumentException("nobody knows how to follow " + order);
    }

    private Optional<Refusal> write(long atMicros, String by, Order.Journal journal) {
        Optional<Refusal> refused = judge(atMicros, by, journal);
        if (refused.isEmpty()) {
            causes.noted(atMicros, journal);
        }
        return refused;
    }

    private Optional<Refusal> judge(long atMicros, String by, Order.Journal journal) {
        return switch (journal.entry()) {
            case SERVICED, PUMP_REPLACED, FILTER_CHANGED, STRAINER_CLEANED -> {
                rules.serviced(atMicros);
                yield Optional.empty();
            }
            case SERVICE_ON -> {
                service.begin(atMicros, by, journal.text());
                yield Optional.empty();
            }
            case SERVICE_OFF -> {
                if (service.isOn()) {
                    judgeAfresh(atMicros);
                }
                yield service.end(atMicros, by, journal.text());
            }
            case LEARN -> {
                rules.learnAnew(atMicros);
                yield Optional.empty();
            }
            case REGULATOR_TURNED, TRANSDUCER_CHANGED -> {
                rules.changed(atMicros);
                yield Optional.empty();
            }
            case COUPLING_GAP, AIR_PURGED, NOTE, ANSWER -> Optional.empty();
        };
    }

    /** Writes the whole state down, to be taken up by {@link #restore}. */
    public byte[] snapshot() {
        return StateBytes.of(FORMAT, this::keep);
    }

    /**
     * A watch that goes on where another one was when its snapshot was taken, perhaps by an older
     * or newer leat: what the snapshot lacks is as in a new watch, what this leat does not know of
     * is passed over.
     *
     * @param settings of the same machine with the same channels wired; the limits may differ. What
     *     is usual for the machine is taken from the snapshot
     * @throws IllegalArgumentException when the snapshot is damaged, of another format, or of
     *     another machine or wiring
     */
    public static Watch restore(WatchSettings settings, byte[] snapshot) {
        Watch watch = new Watch(settings);
        watch.passedOver = StateBytes.into(FORMAT, snapshot, watch::keep);
        return watch;
    }

    /** How many fields of the snapshot that it was restored from it did not know of. */
    public int passedOver() {
        return passedOver;
    }

    /** The whole state, in both directions. */
    void keep(State state) {
        settings.keep(state);
        state.part("gauges", gauges::keep);
        state.part("phases", phases::keep);
        state.part("starts", starts::keep);
        state.part("runs", runs::keep);
        state.part("rest", rest::keep);
        state.part("rules", rules::keep);
        state.part("alarms", alarms::keep);
        state.part("service", service::keep);
        state.part("causes", causes::keep);
        tickMicros = state.keep("tickMicros", tickMicros);
        outOfOrder = state.keep("outOfOrder", outOfOrder);
        ahead = state.keep("ahead", ahead);
    }
}
