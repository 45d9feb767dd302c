package leat.report;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Feature;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;

/** Diagnoses as a diagnostician may give them, for tests of how they are shown. */
public final class Diagnoses {

    private Diagnoses() {}

    public static Reason reason(Feature feature, double value, double usual, double weight) {
        return new Reason(feature, value, OptionalDouble.of(usual), weight);
    }

    /** A booster that gives out under load. */
    public static Diagnosis worn() {
        return new Diagnosis(
                List.of(
                        new Suspect(
                                Cause.WORN_BOOSTER,
                                0.84,
                                List.of(
                                        reason(Feature.DROP, 22.5, 4.2, 3.1),
                                        reason(Feature.BOOST_RATE, 21, 60, 2.2),
                                        reason(Feature.RATIO, 1.9, 2.4, 1.4),
                                        reason(Feature.LOADED, 76, 101, 1.2)),
                                List.of(reason(Feature.DEAD, 0.7, 0.7, -0.2)),
                                Optional.of(Check.JET_OFF)),
                        new Suspect(
                                Cause.COUPLING_SLIPS,
                                0.09,
                                List.of(reason(Feature.DROP, 22.5, 4.2, 1.1)),
                                List.of(
                                        reason(Feature.WANDER, 0.4, 0.4, -1.6),
                                        reason(Feature.RIPPLE, 2.1, 2, -0.6)),
                                Optional.of(Check.COUPLING_MARK)),
                        new Suspect(
                                Cause.SET_LOW,
                                0.05,
                                List.of(reason(Feature.LOADED, 76, 101, 0.8)),
                                List.of(reason(Feature.UNLOADED, 99, 101, -2)),
                                Optional.of(Check.REGULATOR)),
                        new Suspect(Cause.HEALTHY, 0.004, List.of(), List.of(), Optional.empty())),
                4,
                12,
                List.of());
    }

    /** Water that hardly comes. */
    public static Diagnosis weakSupply() {
        return new Diagnosis(
                List.of(
                        new Suspect(
                                Cause.STRAINER_CLOGGED,
                                0.62,
                                List.of(
                                        reason(Feature.INLET_SAG, 18, 3.5, 3),
                                        reason(Feature.INLET_DIP, 25, 12, 1)),
                                List.of(),
                                Optional.of(Check.STRAINER)),
                        new Suspect(
                                Cause.WEAK_SUPPLY,
                                0.3,
                                List.of(reason(Feature.INLET, 24, 41, 1)),
                                List.of(reason(Feature.INLET_REST, 45, 45, -1)),
                                Optional.of(Check.DIAL_GAUGE))),
                1,
                0,
                List.of());
    }

    public static Diagnosis healthy() {
        return new Diagnosis(
                List.of(
                        new Suspect(
                                Cause.HEALTHY,
                                0.97,
                                List.of(reason(Feature.DROP, 4.2, 4.2, 0.5)),
                                List.of(),
                                Optional.empty())),
                10,
                12,
                List.of());
    }
}
