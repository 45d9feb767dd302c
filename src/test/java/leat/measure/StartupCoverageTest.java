package leat.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import leat.Gear;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/**
 * Whole starts with analytic truth: 1,000 seeded cases over sampling rates of 5 to 100 Hz, noise of
 * 0.05 to 1.2 psi, 12-bit counts over 4 to 20 mA and 0 to 200 psi, any phase between start and
 * sampling. Each figure says an uncertainty of 95 %; what it says must hold about that often.
 *
 * <p>First order: 10 to 90 % takes ln 9 time constants, 90 % ln 10, 2 % from the 50 % instant ln
 * 25. Second order: overshoot exp(-pi z / sqrt(1 - z^2)). Both are analytic.
 */
class StartupCoverageTest {

    private static final long START = 1_000_000_000;
    private static final double COUNT_PSI = 200 / 16.0 * 20.5 / 4095;
    private static final int CASES = Gear.cases();

    private final Map<Measurand, int[]> held = new EnumMap<>(Measurand.class);

    @Test
    void uncertainties_of_a_first_order_start_hold_the_truth() {
        for (int seed = 1; seed <= CASES; seed++) {
            firstOrder(seed);
        }

        assertThat(shares())
                .allSatisfy(
                        (measurand, share) ->
                                assertThat(share)
                                        .isBetween(0.92 - Gear.slack(), 0.995 + Gear.slack()));
        assertThat(shares())
                .containsOnlyKeys(
                        Measurand.BASE,
                        Measurand.TOP,
                        Measurand.INLET_REST,
                        Measurand.INLET_RUNNING,
                        Measurand.RATIO,
                        Measurand.RISE,
                        Measurand.START_TO_90,
                        Measurand.TIME_TO_LEVEL,
                        Measurand.SETTLING);
        assertThat(present(Measurand.RISE)).isGreaterThan(CASES * 9 / 10);
    }

    @Test
    void uncertainties_of_a_second_order_start_hold_the_truth() {
        for (int seed = 1; seed <= CASES; seed++) {
            secondOrder(seed);
        }

        assertThat(shares())
                .allSatisfy(
                        (measurand, share) ->
                                assertThat(share)
                                        .isBetween(0.91 - Gear.slack(), 0.995 + Gear.slack()));
        assertThat(present(Measurand.OVERSHOOT)).isGreaterThan(CASES * 8 / 10);
    }

    /** The time at which the pressure was really twice that of the inlet, and first moved. */
    @Test
    void instants_that_are_only_bounded_hold_the_truth_at_least_as_often() {
        for (int seed = 1; seed <= CASES; seed++) {
            bounded(seed);
        }

        assertThat(shares())
                .allSatisfy((m, share) -> assertThat(share).isGreaterThan(0.93 - Gear.slack()));
    }

    /** One or two readings a second: a straight line between readings would be 10 to 35 % off. */
    @Test
    void where_sampling_is_too_slow_a_fit_stands_instead_and_says_so() {
        int told = 0;
        for (int seed = 1; seed <= CASES; seed++) {
            Case one = new Case(seed, 1 + seed % 2, 0.5);
            double tau = one.between(0.8, 1.2);
            Startup startup = one.start(t -> 100 * (1 - Math.exp(-Math.max(0, t - 0.3) / tau)));
            if (startup.remarks().stream()
                    .anyMatch(remark -> remark.kind() == ClimbRemark.Kind.FROM_CURVE)) {
                told++;
                check(startup, Measurand.RISE, tau * Math.log(9));
                check(startup, Measurand.START_TO_90, 0.3 + tau * Math.log(10));
            }
        }

        assertThat(told).isGreaterThan(CASES * 8 / 10);
        assertThat(shares())
                .allSatisfy(
                        (m, share) ->
                                assertThat(share).isBetween(0.92 - Gear.slack(), Gear.most()));
    }

    private void firstOrder(int seed) {
        Case one = new Case(seed);
        double tau = one.between(0.4, 1.5);
        double delay = one.between(0.1, 0.8);
        Startup startup = one.start(t -> 100 * (1 - Math.exp(-Math.max(0, t - delay) / tau)));

        check(startup, Measurand.BASE, 0);
        check(startup, Measurand.TOP, 100);
        check(startup, Measurand.INLET_REST, 40);
        check(startup, Measurand.INLET_RUNNING, 40);
        check(startup, Measurand.RATIO, 2.5);
        check(startup, Measurand.RISE, tau * Math.log(9));
        check(startup, Measurand.START_TO_90, delay + tau * Math.log(10));
        check(startup, Measurand.TIME_TO_LEVEL, tau * (Math.log(4) - Math.log(10 / 9.0)));
        check(startup, Measurand.SETTLING, tau * Math.log(25));
    }

    private void secondOrder(int seed) {
        Case one = new Case(seed);
        double zeta = one.between(0.3, 0.65);
        double frequency = one.between(1.5, 3.5);
        double delay = one.between(0.1, 0.8);
        double root = Math.sqrt(1 - zeta * zeta);
        Startup startup =
                one.start(
                        t -> {
                            double s = frequency * Math.max(0, t - delay);
                            double swing = Math.cos(root * s) + zeta / root * Math.sin(root * s);
                            return 100 * (1 - Math.exp(-zeta * s) * swing);
                        });

        check(startup, Measurand.TOP, 100);
        check(startup, Measurand.OVERSHOOT, 100 * Math.exp(-Math.PI * zeta / root));
    }

    private void bounded(int seed) {
        Case one = new Case(seed);
        double tau = one.between(0.4, 1.5);
        double delay = one.between(0.1, 0.8);
        Startup startup = one.start(t -> 100 * (1 - Math.exp(-Math.max(0, t - delay) / tau)));

        check(startup, Measurand.DEAD, delay);
        check(startup, Measurand.TIME_TO_DOUBLE, delay + tau * Math.log(5));
    }

    private void check(Startup startup, Measurand measurand, double truth) {
        Figure figure = startup.figure(measurand);
        int[] count = held.computeIfAbsent(measurand, m -> new int[2]);
        if (figure.isPresent()) {
            count[0] += Math.abs(figure.get() - truth) <= figure.uncertainty().orElse(-1) ? 1 : 0;
            count[1]++;
        }
    }

    private Map<Measurand, Double> shares() {
        Map<Measurand, Double> shares = new EnumMap<>(Measurand.class);
        held.forEach((measurand, count) -> shares.put(measurand, count[0] / (double) count[1]));
        return shares;
    }

    private int present(Measurand measurand) {
        return held.get(measurand)[1];
    }

    /** One start as the transducers show it. */
    private static final class Case {
        private static final double[] RATES = {5, 10, 20, 50, 100};

        /**
         * First numbers of generators with seeds 1, 2, 3 are all but equal; of these they differ.
         */
        private static final long SPREAD = 0x9E3779B97F4A7C15L;

        private final Random random;
        private final double rateHz;
        private final double noisePsi;

        Case(int seed) {
            random = new Random(seed * SPREAD);
            rateHz = RATES[seed % RATES.length];
            noisePsi = between(0.05, 1.2);
        }

        Case(int seed, double rateHz, double noisePsi) {
            random = new Random(seed * SPREAD);
            this.rateHz = rateHz;
            this.noisePsi = noisePsi;
        }

        double between(double low, double high) {
            return low + (high - low) * random.nextDouble();
        }

        Startup start(DoubleUnaryOperator psi) {
            StartupMeter meter = new StartupMeter(new StartupSettings(10, 75, true));
            double first = -7 + random.nextDouble() / rateHz;
            boolean open = false;
            for (int i = 0; first + i / rateHz < 15; i++) {
                double t = first + i / rateHz;
                if (!open && t >= 0) {
                    meter.open(START, true, START - 20_000_000);
                    open = true;
                }
                long at = START + Math.round(t * 1e6);
                meter.inletRead(at, shown(40));
                meter.boostedRead(at, shown(t < 0 ? 0 : psi.applyAsDouble(t)));
            }
            return meter.measure(START + 15_000_000, START + 15_000_000);
        }

        private double shown(double psi) {
            double noisy = psi + noisePsi * random.nextGaussian();
            return Math.rint(noisy / COUNT_PSI) * COUNT_PSI;
        }
    }

    @Test
    void a_quieter_and_faster_signal_is_measured_with_less_doubt() {
        DoubleUnaryOperator rise = t -> 100 * (1 - Math.exp(-t / 0.8));
        Case coarse = new Case(5);
        Case fine = new Case(4);

        double doubtful = coarse.start(rise).riseSeconds().uncertainty().orElseThrow();
        double sure = fine.start(rise).riseSeconds().uncertainty().orElseThrow();

        assertThat(sure).isLessThan(doubtful).isCloseTo(0, Offset.offset(0.15));
    }
}
