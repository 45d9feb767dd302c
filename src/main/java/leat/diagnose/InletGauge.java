package leat.diagnose;

import java.util.List;
import java.util.OptionalDouble;
import leat.measure.Measurand;

/** Where the inlet gauge sits; some checks make sense only with it. */
public enum InletGauge {
    /** The machine has none. */
    NONE,
    BEFORE_VALVE,
    /** Behind the shut-off valve: at rest it falls to 0 together with the boosted gauge. */
    BEHIND_VALVE;

    /**
     * A gauge before the valve reads no less at rest than while water is drawn; one that reads less
     * than this share sits behind it. Own figure.
     */
    private static final double SHUT_IN = 0.5;

    /** As the observations show it, by the newest one that does. */
    public static InletGauge seenIn(List<Observation> observations) {
        InletGauge seen = NONE;
        for (Observation one : observations) {
            OptionalDouble rest = one.ofStart(Measurand.INLET_REST).value();
            OptionalDouble running = one.ofRun(Measurand.INLET_RUNNING).value();
            if (rest.isPresent() && running.isPresent()) {
                seen = of(rest.getAsDouble(), running.getAsDouble());
            } else if (seen == NONE && (rest.isPresent() || running.isPresent())) {
                seen = BEFORE_VALVE;
            }
        }
        return seen;
    }

    /** By what it reads at rest and while water is drawn, psi. */
    static InletGauge of(double restPsi, double runningPsi) {
        return restPsi < SHUT_IN * runningPsi ? BEHIND_VALVE : BEFORE_VALVE;
    }

    /** Whether a check can be made, and tells what its row of the table says. */
    boolean allows(Check check) {
        return switch (check) {
            case BOTH_GAUGES -> this != NONE;
            // behind a shut valve nothing stands for the dial upstream to be compared with
            // and a gauge behind it reads what the suction does
            case DIAL_GAUGE, SUCTION -> this == BEFORE_VALVE;
            case JET_OFF,
                    SHAFT,
                    SUPPLY_VALVE,
                    HOUSE_PRESSURE,
                    HAND_VALVE,
                    RELIEVE,
                    OPEN_TO_AIR,
                    WALK_THE_LINE,
                    VENT,
                    STRAINER,
                    COUPLING_MARK,
                    SHUT_OFF_VALVE,
                    VALVE_TIMED,
                    REGULATOR,
                    FILTER_GAUGE,
                    WIRING,
                    SETTINGS,
                    BYPASS,
                    LISTEN,
                    WATER_RUNS,
                    OTHER_USERS,
                    DRAIN_OPEN ->
                    true;
        };
    }
}
