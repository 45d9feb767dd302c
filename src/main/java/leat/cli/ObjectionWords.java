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
            case TOO_FEW -> shown.say("cli.objection.too-few");
            case UNFIT ->
                    shown.say("cli.objection.unfit", seen.unfit().map(this::quality).orElse(""));
            case MOVES ->
                    shown.say(
                            "cli.objection.moves",
                            shown.pressure(seen.spreadPsi()),
                            shown.pressure(Math.abs(seen.driftPsi())));
            case FAR_FROM_ZERO ->
                    shown.say("cli.objection.far-from-zero", shown.pressure(seen.meanPsi()));
            case TOO_LOW -> shown.say("cli.objection.too-low", shown.pressure(0.2 * spanPsi));
            case FAR_FROM_GAUGE ->
                    shown.say(
                            "cli.objection.far-from-gauge",
                            shown.pressure(seen.meanPsi()),
                            gauge.map(TypedPressure::toString).orElse(""));
        };
    }

    private String quality(Quality quality) {
        return shown.say("quality." + quality.key());
    }
}
