package leat.watch;

import java.util.function.Consumer;
import leat.measure.DemandLevels;
import leat.measure.RunMeter;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.phase.PhaseFinder;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Gauges;
import leat.signal.Reading;
import leat.wire.State;

/** Every run of the booster, from its start to its stop. Thread-confined to its watch. */
final class Runs {

    private final Gauges gauges;
    private final PhaseFinder phases;
    private final Consumer<Outcome> outcomes;
    private final RunMeter meter;

    /**
     * @param outcomes told of each steady spell that has been measured
     */
    Runs(Limits limits, Gauges gauges, PhaseFinder phases, Consumer<Outcome> outcomes) {
        this.gauges = gauges;
        this.phases = phases;
        this.outcomes = outcomes;
        meter = new RunMeter(limits.get(Limit.RATIO_MIN_INLET));
    }

    /** A usable pressure was shown on its gauge. */
    void read(Reading reading) {
        if (phases.phase() == Phase.STEADY) {
            meter.read(reading);
        }
    }

    /** The last seconds, for rules. */
    DemandLevels levels() {
        return meter.levels();
    }

    /** A second has passed. */
    void tick() {
        meter.tick(gauges.contact(Channel.CUTTING))
                .ifPresent(spell -> outcomes.accept(new Outcome.SteadyMeasured(spell)));
    }

    void phaseChanged(PhaseChange change) {
        if (change.from() == Phase.STEADY) {
            meter.pause().ifPresent(spell -> outcomes.accept(new Outcome.SteadyMeasured(spell)));
        }
        if (change.to() == Phase.RISE
                || change.to() == Phase.STEADY && !change.from().isRunning()) {
            meter.open(phases.startMicros());
        }
    }

    void keep(State state) {
        meter.keep(state);
    }
}
