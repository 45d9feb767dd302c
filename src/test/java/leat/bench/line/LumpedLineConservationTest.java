package leat.bench.line;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import leat.Gear;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** No water is lost in the model, and its solver is exact enough to be believed. */
class LumpedLineConservationTest {

    private static final double MISSING = 1e-6;
    private static final double MOVED_PSI = 0.05;

    static List<Fault> faults() {
        return Gear.everyNth(5, List.of(Fault.values()));
    }

    @ParameterizedTest
    @MethodSource("faults")
    void water_balance_closes_with_every_fault_and_pump(Fault fault) {
        for (BoosterKind kind : BoosterKind.values()) {
            for (double severity : Gear.everyNth(2, List.of(0.2, 0.6, 1.0))) {
                LumpedLine line = line(kind, 1);
                line.strike(fault, severity);

                Visit.to(line);

                assertThat(line.balance().missingShare())
                        .as(kind + ", severity " + severity)
                        .isLessThan(MISSING);
            }
        }
    }

    @Test
    void water_balance_closes_over_hours_of_rest() {
        LumpedLine line = line(BoosterKind.VANE, 1);
        line.start();
        line.advance(60);
        line.stop();

        line.advance(Gear.of(10, 720) * 60);

        assertThat(line.balance().missingShare()).isLessThan(MISSING);
    }

    @Test
    void water_balance_closes_while_faults_come_and_go_and_machines_differ() {
        for (long seed = 1; seed <= Gear.of(2, 12); seed++) {
            Random random = new Random(seed);
            BoosterKind kind = BoosterKind.values()[(int) (seed % 2)];
            Build build =
                    Build.drawn(kind, seed)
                            .withRegulator(RegulatorKind.values()[(int) (seed / 2 % 2)]);
            LumpedLine line = new LumpedLine(new LineSettings(45, 100, build), seed);
            for (int i = 0; i < 40; i++) {
                happen(line, random);
                line.advance(0.01 + 10 * random.nextDouble());
            }

            assertThat(line.balance().missingShare()).as("seed " + seed).isLessThan(MISSING);
        }
    }

    private static void happen(LumpedLine line, Random random) {
        Fault fault = Fault.values()[random.nextInt(Fault.values().length)];
        switch (random.nextInt(6)) {
            case 0 -> line.start();
            case 1 -> line.stop();
            case 2 -> line.cut();
            case 3 -> line.pause();
            case 4 -> line.strike(fault, random.nextDouble());
            default -> line.repair(fault);
        }
    }

    /** What {@link LumpedLine#LumpedLine(LineSettings, long, double)} promises. */
    @ParameterizedTest
    @EnumSource(BoosterKind.class)
    void a_hundred_times_the_tolerance_moves_no_pressure_by_more_than_a_tenth(BoosterKind kind) {
        assertThat(furthest(played(line(kind, 1)), played(line(kind, 100)))).isLessThan(0.1);
    }

    @ParameterizedTest
    @MethodSource("faults")
    void half_the_tolerance_moves_no_pressure(Fault fault) {
        for (BoosterKind kind : BoosterKind.values()) {
            LumpedLine usual = line(kind, 1);
            LumpedLine strict = line(kind, 0.5);
            usual.strike(fault, 0.8);
            strict.strike(fault, 0.8);

            List<LineState> a = played(usual);
            List<LineState> b = played(strict);

            assertThat(furthest(a, b)).as(kind.toString()).isLessThan(MOVED_PSI);
        }
    }

    private static LumpedLine line(BoosterKind kind, double tolerance) {
        LineSettings settings = new LineSettings(40, 100, Build.USUAL.withBooster(kind));
        return new LumpedLine(settings, 5, tolerance);
    }

    private static List<LineState> played(LumpedLine line) {
        List<LineState> states = new ArrayList<>();
        for (int i = 0; i < 6000; i++) {
            if (i == 200) {
                line.start();
            } else if (i == 4200) {
                line.stop();
            }
            line.advance(0.01);
            states.add(line.state());
        }
        return states;
    }

    private static double furthest(List<LineState> a, List<LineState> b) {
        double furthest = 0;
        for (int i = 0; i < a.size(); i++) {
            LineState x = a.get(i);
            LineState y = b.get(i);
            furthest = Math.max(furthest, Math.abs(x.inletPsi() - y.inletPsi()));
            furthest = Math.max(furthest, Math.abs(x.boostedPsi() - y.boostedPsi()));
            furthest = Math.max(furthest, Math.abs(x.filteredPsi() - y.filteredPsi()));
        }
        return furthest;
    }
}
