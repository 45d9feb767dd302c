package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.LongFunction;
import leat.Gear;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Whether the stated uncertainties are honest: over 1,000 seeded climbs of 10 to 100 Hz, noise of
 * 0.05 to 1.2 psi, 12 bits and a random phase, between 92 and 99 % of the true values lie inside,
 * and what is stated is at most half as much again as would have held 95 %. Seeds are 1 to 1,000.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class UncertaintyCoverageTest {

    private static final int CASES = Gear.cases();

    private record Drawn(String what, long seed) {}

    /** Those at which many tests look are measured once. */
    private final Map<Drawn, MeasuredClimb> climbs = new HashMap<>();

    @Test
    void base_level() {
        Coverage coverage = firstOrder(m -> m.levels().base(), AnalyticClimb::base);

        assertHonest(coverage);
    }

    @Test
    void level_of_the_end_after_a_first_order_rise() {
        Coverage coverage = firstOrder(m -> m.levels().last(), AnalyticClimb::top);

        assertHonest(coverage);
    }

    @Test
    void level_of_the_end_after_a_ringing_rise() {
        Coverage coverage = secondOrder(m -> m.levels().last(), AnalyticClimb::top);

        assertHonest(coverage);
    }

    @Test
    void instant_of_10_percent() {
        Coverage coverage = firstOrder(m -> m.crossings().t10(), climb -> climb.instant(0.1));

        assertHonest(coverage);
    }

    @Test
    void instant_of_50_percent() {
        Coverage coverage = firstOrder(m -> m.crossings().t50(), climb -> climb.instant(0.5));

        assertHonest(coverage);
    }

    @Test
    void instant_of_90_percent() {
        Coverage coverage = firstOrder(m -> m.crossings().t90(), climb -> climb.instant(0.9));

        assertHonest(coverage);
    }

    @Test
    void duration_of_a_first_order_rise() {
        Coverage coverage =
                firstOrder(
                        m -> m.crossings().durationSeconds(), climb -> Math.log(9) * climb.tau());

        assertHonest(coverage);
    }

    @Test
    void duration_of_a_ringing_rise() {
        Coverage coverage =
                secondOrder(
                        m -> m.crossings().durationSeconds(),
                        climb -> climb.instant(0.9) - climb.instant(0.1));

        assertHonest(coverage);
    }

    static List<Double> samplingRates() {
        return Gear.everyNth(2, List.of(5.0, 10.0, 20.0, 100.0));
    }

    @ParameterizedTest
    @MethodSource("samplingRates")
    void duration_at_each_sampling_rate(double hertz) {
        Coverage coverage =
                coverage(
                        "duration at " + hertz + " Hz",
                        seed -> AnalyticClimb.drawn(seed).sampled(hertz),
                        m -> m.crossings().durationSeconds(),
                        climb -> Math.log(9) * climb.tau());

        assertHonest(coverage);
    }

    static List<Double> noises() {
        return Gear.everyNth(2, List.of(0.02, 0.3, 1.2));
    }

    @ParameterizedTest
    @MethodSource("noises")
    void duration_at_each_noise(double noisePsi) {
        Coverage coverage =
                coverage(
                        "duration with noise " + noisePsi,
                        seed -> AnalyticClimb.drawn(seed).noisy(noisePsi),
                        m -> m.crossings().durationSeconds(),
                        climb -> Math.log(9) * climb.tau());

        assertHonest(coverage);
    }

    @Test
    void duration_under_irregular_sampling() {
        Coverage coverage =
                coverage(
                        "duration, irregular",
                        seed -> AnalyticClimb.drawn(seed).irregularly(),
                        m -> m.crossings().durationSeconds(),
                        climb -> Math.log(9) * climb.tau());

        assertHonest(coverage);
    }

    @Test
    void seconds_from_10_percent_to_75_psi() {
        Coverage coverage =
                coverage(
                        "fixed threshold",
                        seed -> AnalyticClimb.drawn(seed).levels(5, 95),
                        m -> m.after10(FixedThreshold.DEFAULT_PSI),
                        climb -> climb.instant(70.0 / 95) - climb.instant(0.1));

        assertHonest(coverage);
    }

    @Test
    void rate_of_a_boost_along_a_straight_line() {
        Coverage coverage =
                coverage(
                        "rate of a ramp",
                        AnalyticClimb::drawnRamp,
                        m -> m.boostRate(),
                        MeasuredClimb::rate);

        assertHonest(coverage);
    }

    @Test
    void rate_of_a_boost_that_slows() {
        Coverage coverage = firstOrder(m -> m.boostRate(), MeasuredClimb::rate);

        assertHonest(coverage);
    }

    @Test
    void overshoot() {
        Coverage coverage =
                secondOrder(m -> m.aberrations().overshootPercent(), AnalyticClimb::overshoot);

        assertHonest(coverage);
    }

    @Test
    void undershoot_after_the_overshoot() {
        Coverage coverage =
                secondOrder(
                        m -> m.aberrations().undershootPercent(),
                        climb -> climb.overshoot() * climb.overshoot() / 100);

        assertHonest(coverage);
    }

    @Test
    void settling_of_a_first_order_rise() {
        Coverage coverage = firstOrder(m -> m.settling(1), climb -> Math.log(25) * climb.tau());

        assertHonest(coverage);
    }

    @Test
    void settling_of_a_ringing_rise() {
        Coverage coverage = secondOrder(m -> m.settling(1), AnalyticClimb::settle);

        assertHonest(coverage);
    }

    /** A top that is off by its doubt moves the band, and the nearer the level the more in time. */
    @ParameterizedTest
    @CsvSource({"10, 0.45", "50, 0.9"})
    void settling_where_noise_fills_much_of_the_band(double hertz, double noisePsi) {
        Coverage coverage =
                coverage(
                        "settling at " + hertz + " Hz with noise " + noisePsi,
                        seed -> AnalyticClimb.drawn(seed).sampled(hertz).noisy(noisePsi),
                        m -> m.settling(1),
                        climb -> Math.log(25) * climb.tau());

        assertHonest(coverage);
    }

    static List<Double> drops() {
        return Gear.everyNth(2, List.of(0.0, 4.0, 15.0));
    }

    @ParameterizedTest
    @MethodSource("drops")
    void level_under_strokes(double dropPsi) {
        Coverage coverage =
                stroking(dropPsi, m -> m.levels().loaded(), climb -> climb.top() - dropPsi);

        assertHonest(coverage);
    }

    @ParameterizedTest
    @MethodSource("drops")
    void level_before_strokes(double dropPsi) {
        Coverage coverage = stroking(dropPsi, m -> m.levels().unloaded(), AnalyticClimb::top);

        assertHonest(coverage);
    }

    @ParameterizedTest
    @MethodSource("drops")
    void drop_when_strokes_begin(double dropPsi) {
        Coverage coverage = stroking(dropPsi, m -> m.levels().dropPsi(), climb -> dropPsi);

        assertHonest(coverage);
    }

    @Test
    void ripple_of_the_strokes() {
        Coverage coverage =
                stroking(0, m -> Ripple.of(m.steady(), m.noise()).sdPsi(), AnalyticClimb::rippleSd);

        assertHonest(coverage);
    }

    @Test
    void frequency_of_the_strokes() {
        Coverage coverage =
                stroking(
                        0,
                        m -> Ripple.of(m.steady(), m.noise()).frequencyHz(),
                        AnalyticClimb::strokeHz);

        assertHonest(coverage);
    }

    @Test
    void wander_of_a_still_pressure() {
        Coverage coverage =
                coverage(
                        "wander",
                        seed -> AnalyticClimb.drawn(seed).firstOrder(0.1),
                        m -> Wander.of(m.steady(), m.noise()),
                        climb -> 0.0);

        assertHonest(coverage);
    }

    private Coverage firstOrder(
            Function<MeasuredClimb, Figure> measured, Function<AnalyticClimb, Double> truth) {
        return shared("first order", AnalyticClimb::drawn, measured, truth);
    }

    private Coverage secondOrder(
            Function<MeasuredClimb, Figure> measured, Function<AnalyticClimb, Double> truth) {
        return shared("second order", AnalyticClimb::drawnRinging, measured, truth);
    }

    private Coverage stroking(
            double dropPsi,
            Function<MeasuredClimb, Figure> measured,
            Function<AnalyticClimb, Double> truth) {
        return shared(
                "strokes, drop " + dropPsi,
                seed -> AnalyticClimb.drawnStroking(seed, dropPsi),
                measured,
                truth);
    }

    private Coverage coverage(
            String what,
            LongFunction<AnalyticClimb> draw,
            Function<MeasuredClimb, Figure> measured,
            Function<AnalyticClimb, Double> truth) {
        return counted(what, seed -> MeasuredClimb.of(draw.apply(seed)), measured, truth);
    }

    /** Likewise of climbs at which other tests look too. */
    private Coverage shared(
            String what,
            LongFunction<AnalyticClimb> draw,
            Function<MeasuredClimb, Figure> measured,
            Function<AnalyticClimb, Double> truth) {
        LongFunction<MeasuredClimb> once =
                seed ->
                        climbs.computeIfAbsent(
                                new Drawn(what, seed), drawn -> MeasuredClimb.of(draw.apply(seed)));
        return counted(what, once, measured, truth);
    }

    private static Coverage counted(
            String what,
            LongFunction<MeasuredClimb> measure,
            Function<MeasuredClimb, Figure> measured,
            Function<AnalyticClimb, Double> truth) {
        return Coverage.of(
                what,
                CASES,
                seed -> {
                    MeasuredClimb climb = measure.apply(seed);
                    return new Coverage.Case(measured.apply(climb), truth.apply(climb.truth()));
                });
    }

    private static void assertHonest(Coverage coverage) {
        assertThat(coverage.present()).as("%s", coverage).isGreaterThan(CASES / 2);
        assertThat(coverage.percent())
                .as("%s", coverage)
                .isBetween(92.0 - 100 * Gear.slack(), Math.min(100, 99.5 + 100 * Gear.slack()));
        assertThat(coverage.width()).as("%s", coverage).isLessThan(1.5);
    }
}
