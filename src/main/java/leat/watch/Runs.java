package leat.watch;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.LongFunction;
import leat.alarm.AlarmChange;
import leat.measure.DemandLevels;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Run;
import leat.measure.RunMeter;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.phase.PhaseFinder;
import leat.rule.JudgedRun;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.rule.RuleBook;
import leat.rule.RunVerdict;
import leat.rule.Situation;
import leat.signal.Channel;
import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.Reading;
import leat.wire.State;

/**
 * Every run of the booster, from its start to its stop, and the verdict on it. A run that was out
 * of sight for less than a minute is one run. Thread-confined to its watch.
 */
final class Runs {

    /** A long run is judged so often while it lasts. */
    private static final long BETWEEN_MICROS = 15L * 60 * 1_000_000;

    /** A run that was not seen for longer is over. */
    private static final long UNSEEN_MICROS = 60_000_000;

    private final Gauges gauges;
    private final PhaseFinder phases;
    private final RuleBook rules;
    private final LongFunction<Situation> situations;
    private final Consumer<Outcome> outcomes;
    private final RunMeter meter;
    private boolean open;
    private long startMicros = Gauge.NEVER;
    private RunVerdict.Mark climb = RunVerdict.Mark.NOT_JUDGED;

    /** What its start was measured to reach; nothing where that was not seen. */
    private Map<Measurand, Figure> reached = Map.of();

    private List<RunVerdict.Raised> raised = List.of();
    private boolean untold;
    private long toldMicros = Gauge.NEVER;
    private long seenMicros = Gauge.NEVER;

    /**
     * @param situations what rules may look at, by the time of now
     * @param outcomes told of each steady spell and each verdict
     */
    Runs(
            Limits limits,
            Gauges gauges,
            PhaseFinder phases,
            RuleBook rules,
            LongFunction<Situation> situations,
            Consumer<Outcome> outcomes) {
        this.gauges = gauges;
        this.phases = phases;
        this.rules = rules;
        this.situations = situations;
        this.outcomes = outcomes;
        meter = new RunMeter(limits.get(Limit.RATIO_MIN_INLET), gauges.hasInlet());
    }

    /** A reading was shown on its gauge, BAD or usable. */
    void read(Reading reading) {
        if (open) {
            meter.came(reading);
        }
        if (reading.quality().isUsable()
                && phases.phase() == Phase.STEADY
                && !phases.isInDoubt(reading.atMicros())) {
            meter.read(reading);
        }
    }

    /** The last seconds, for rules. */
    DemandLevels levels() {
        return meter.levels();
    }

    /** The start of this run was measured and judged. */
    void startMeasured(Outcome.StartupMeasured start) {
        if (open) {
            startMicros = start.startup().startedAtMicros();
            climb = start.verdict().mark();
            reached = start.startup().risen() ? Run.of(start.startup()) : Map.of();
        }
    }

    /** An alarm changed; that of a sensor's clock says nothing of the run. */
    void alarmChanged(AlarmChange change) {
        boolean worse =
                switch (change.event()) {
                    case RAISED, WORSENED, CHATTERING, REPEATED -> true;
                    case EASED,
                            RETURNED,
                            ACKNOWLEDGED,
                            LATCHED,
                            RESET,
                            SHELVED,
                            UNSHELVED,
                            SUPPRESSED,
                            RELEASED,
                            REMOVED,
                            RESTORED,
                            SETTLED ->
                            false;
                };
        boolean isOfRun = change.finding().rule() != Rule.SIGNAL_CLOCK;
        if (!open || !worse || !isOfRun) {
            return;
        }
        RunVerdict.Raised alarm =
                new RunVerdict.Raised(
                        change.finding().rule(),
                        change.finding().channel(),
                        change.finding().grade());
        if (!raised.contains(alarm)) {
            List<RunVerdict.Raised> more = new ArrayList<>(raised);
            more.add(alarm);
            raised = List.copyOf(more);
            untold = true;
        }
    }

    /** A second has passed; what was found in it has been told. */
    void tick(long atMicros) {
        if (!phases.isInDoubt(atMicros)) {
            meter.tick(gauges.contact(Channel.CUTTING))
                    .ifPresent(spell -> outcomes.accept(new Outcome.SteadyMeasured(spell)));
        }
        if (!phases.phase().isRunning()) {
            if (atMicros - seenMicros > UNSEEN_MICROS) {
                end(seenMicros, atMicros);
            }
            return;
        }
        seenMicros = atMicros;
        if (open && (untold || atMicros - toldMicros >= BETWEEN_MICROS)) {
            tell(atMicros, atMicros, false);
        }
    }

    /** The phase will change: a steady spell ends. */
    void phaseChanges(PhaseChange change) {
        if (change.from() == Phase.STEADY) {
            meter.pause().ifPresent(spell -> outcomes.accept(new Outcome.SteadyMeasured(spell)));
        }
    }

    /** The phase has changed, and the start has been measured if it was still to be. */
    void phaseChanged(PhaseChange change) {
        switch (change.to()) {
            case RISE -> begin(change);
            case STEADY -> {
                if (!change.from().isRunning() && !isSameRun()) {
                    begin(change);
                }
            }
            case FALL -> end(phases.stopMicros(), change.atMicros());
            case REST -> {
                open &= change.from() != Phase.RISE; // what looked like a start was none
                end(seenMicros, change.atMicros());
            }
            case BLIND -> {
                // it may go on unseen
            }
        }
    }

    private boolean isSameRun() {
        return open && meter.startMicros() == phases.startMicros();
    }

    private void begin(PhaseChange change) {
        end(seenMicros, change.atMicros());
        open = true;
        startMicros = phases.startMicros();
        climb = RunVerdict.Mark.NOT_JUDGED;
        reached = Map.of();
        raised = List.of();
        untold = false;
        seenMicros = change.atMicros();
        toldMicros = change.atMicros();
        meter.open(phases.startMicros());
    }

    /** Event time jumps: the run ends where it was last seen. */
    void forget(long fromMicros) {
        end(seenMicros, fromMicros);
    }

    private void end(long endedMicros, long atMicros) {
        if (open) {
            tell(endedMicros, atMicros, true);
            open = false;
        }
    }

    /** The run that lasts, as far as it has been seen; nothing is told of it. */
    Optional<JudgedRun> soFar(long atMicros) {
        return lasting()
                .map(run -> new JudgedRun(run, new RunVerdict(parts(run, atMicros), raised)));
    }

    /** Likewise, without a judgement. */
    Optional<Run> lasting() {
        return open ? Optional.of(run(seenMicros, false)) : Optional.empty();
    }

    private Run run(long endedMicros, boolean over) {
        return meter.run(startMicros, Math.max(startMicros, endedMicros), over);
    }

    private List<RunVerdict.Part> parts(Run run, long atMicros) {
        return rules.judge(run, reached, climb, situations.apply(atMicros));
    }

    private void tell(long endedMicros, long atMicros, boolean over) {
        Run run = run(endedMicros, over);
        List<RunVerdict.Part> parts = parts(run, atMicros);
        rules.compare(run);
        RunVerdict verdict = new RunVerdict(parts, raised);
        outcomes.accept(new Outcome.RunJudged(run, verdict));
        if (over && verdict.mark() == RunVerdict.Mark.GOOD) {
            rules.learn(run);
        }
        untold = false;
        toldMicros = atMicros;
    }

    void keep(State state) {
        state.part("meter", meter::keep);
        open = state.keep("open", open);
        startMicros = state.keep("startMicros", startMicros);
        climb = state.keep("climb", climb);
        reached = state.keep("reached", Measurand.class, Figure.class, reached);
        raised = state.keep("raised", RunVerdict.Raised.class, raised);
        untold = state.keep("untold", untold);
        toldMicros = state.keep("toldMicros", toldMicros);
        seenMicros = state.keep("seenMicros", seenMicros);
    }
}
