package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import leat.measure.Measurand;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.rule.Limit;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Limits that no judge looks at, each at two values that are not its default. */
class WatchEdgesTest {

    /** The ticks see it, which come each second. */
    @ParameterizedTest
    @CsvSource({"3.5, 4", "16.5, 17"})
    void a_pressure_is_out_of_sight_after_the_silence_that_is_set(
            double blindSeconds, int seenSeconds) {
        Line line = Line.quiet().limit(Limit.SIGNAL_BLIND, blindSeconds).at(0).hold(10);
        long last = line.now();
        line.silence(30);

        Told told = Told.by(line);

        assertThat(told.phases)
                .filteredOn(change -> change.to() == Phase.BLIND && change.atMicros() > last)
                .extracting(PhaseChange::atMicros)
                .containsExactly(last + seenSeconds * 1_000_000L);
    }

    /** A climb of first order is at a share s of its level after tau ln(1 / (1 - s)). */
    @ParameterizedTest
    @CsvSource({"60, 0.6", "85, 0.85"})
    void a_climb_is_timed_from_ten_per_cent_to_the_level_that_is_set(double psi, double share) {
        Line line = Line.quiet().limit(Limit.RISE_FIXED_LEVEL, psi);
        line.at(0).hold(8).towards(100, 1, 30);

        Told told = Told.by(line);

        assertThat(told.startups.get(0).figure(Measurand.TIME_TO_LEVEL).get())
                .isCloseTo(Math.log(1 / (1 - share)) - Math.log(1 / 0.9), within(0.02));
    }
}
