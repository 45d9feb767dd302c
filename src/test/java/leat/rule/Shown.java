package leat.rule;

import java.util.function.ObjDoubleConsumer;
import leat.phase.Phase;

/** What the gauges show, of one number, and what the machine does meanwhile. */
enum Shown {
    INLET(Phase.STEADY, (stand, x) -> stand.second(x, 100)),
    RATIO(Phase.STEADY, (stand, x) -> stand.second(30, 30 * x)),
    RATIO_OF_TWO(Phase.STEADY, (stand, x) -> stand.second(x, 2 * x)),
    BOTH_RUNNING(Phase.STEADY, (stand, x) -> stand.second(x, x)),
    BOOSTED_OF_12(Phase.STEADY, (stand, x) -> stand.second(12, x)),
    BOOSTED_OF_55(Phase.STEADY, (stand, x) -> stand.second(55, x)),
    BOOSTED_OF_80(Phase.STEADY, (stand, x) -> stand.second(80, x)),
    REST_OF_12(Phase.REST, (stand, x) -> stand.second(12, x)),
    REST_OF_60(Phase.REST, (stand, x) -> stand.second(60, x)),
    BOTH_AT_REST(Phase.REST, (stand, x) -> stand.second(x, x));

    private final Phase phase;
    private final ObjDoubleConsumer<Stand> second;

    Shown(Phase phase, ObjDoubleConsumer<Stand> second) {
        this.phase = phase;
        this.second = second;
    }

    /** A stand whose machine has just turned to what is judged here. */
    Stand stand() {
        return new Stand().turn(phase);
    }

    void hold(Stand stand, double value, int seconds) {
        for (int i = 0; i < seconds; i++) {
            second.accept(stand, value);
        }
    }
}
