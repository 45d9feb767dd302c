package leat.cli;

import java.util.Optional;
import leat.report.Shown;
import leat.signal.Quality;
import leat.wiring.Steadiness;
import leat.wiring.Steadiness.Objection;
import leat.wiring.TypedPressure;

/**
 * Why a reading is not taken for a zero, or for what a hand gauge shows, and what to do.
 *
 * @param shown how pressures are shown
 * @param seen what the channel read
 * @param gauge what the hand gauge showed, where it is about one
 * @param spanPsi of the transducer
 */
record ObjectionWords(Shown shown, Steadiness seen, Optional<TypedPressure> gauge, double spanPsi) {

    String of(Objection objection) {
        return switch (objection) {
            case TOO_FEW ->
                    "These are too few readings to tell: at least 10. Take a longer --over.";
            case UNFIT ->
                    "Some of these readings are not to be relied on ("
                            + seen.unfit().map(Quality::key).orElse("")
                            + "). Look at the wiring first; see leat alarms.";
            case MOVES ->
                    "The reading moves: by "
                            + shown.pressure(seen.spreadPsi())
                            + " in all, and by "
                            + shown.pressure(Math.abs(seen.driftPsi()))
                            + " from the first half to the second. Wait until it stands still;"
                            + " where it sinks, the line is still being relieved.";
            case FAR_FROM_ZERO ->
                    "A vented transducer never reads "
                            + shown.pressure(seen.meanPsi())
                            + ", over 5 % of its span. The line is not vented, or the wiring, the"
                            + " range or the channel is wrong: look at these. Do not open the line.";
            case TOO_LOW ->
                    "So near to zero a gauge tells nothing of the gain: compare at "
                            + shown.pressure(0.2 * spanPsi)
                            + " or more.";
            case FAR_FROM_GAUGE ->
                    "It reads "
                            + shown.pressure(seen.meanPsi())
                            + " where the gauge shows "
                            + gauge.map(TypedPressure::toString).orElse("")
                            + ": over 10 % of the span apart is no matter of gain. Look at the"
                            + " range, the register, and whether both are on the same line.";
        };
    }
}
