package leat.bench.recording;

import java.util.List;
import java.util.OptionalDouble;

/**
 * What was true of one start, from pressures without lag, noise and converter. Pressures gauge psi.
 *
 * @param micros when the contactor closed, since the start of the recording
 * @param ranSeconds until it opened, or the recording ended
 * @param riseSeconds 10 to 90 % of base to top, by linear interpolation between steps of the model;
 *     absent where the pressure climbed by less than 10 psi
 * @param riseToLevelSeconds likewise of base to level, which lies below the top where the level
 *     gives way under the strokes
 * @param basePsi boosted pressure when the contactor closed
 * @param topPsi median of the three seconds after the boosted pressure first came within 2 % of its
 *     highest in the first 25 s
 * @param levelPsi median boosted pressure from 15 s after the start to the end of the run; absent
 *     for a shorter run
 * @param inletRestPsi inlet pressure when the contactor closed
 * @param inletPsi median inlet pressure of the same time as the level
 * @param defectsAtStart what was wrong at the start and how bad
 * @param defectsAtStop likewise at the stop
 */
record TrueStart(
        long micros,
        double ranSeconds,
        OptionalDouble riseSeconds,
        OptionalDouble riseToLevelSeconds,
        double basePsi,
        double topPsi,
        OptionalDouble levelPsi,
        double inletRestPsi,
        OptionalDouble inletPsi,
        List<String> defectsAtStart,
        List<String> defectsAtStop) {

    /** Level over inlet, gauge over gauge; absent below 1 psi of inlet pressure. */
    OptionalDouble ratio() {
        return levelPsi.isPresent() && inletPsi.orElse(0) >= 1
                ? OptionalDouble.of(levelPsi.getAsDouble() / inletPsi.getAsDouble())
                : OptionalDouble.empty();
    }
}
