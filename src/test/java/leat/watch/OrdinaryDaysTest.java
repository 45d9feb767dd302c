package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.Gear;
import leat.alarm.AlarmEvent;
import leat.bench.line.Fault;
import leat.measure.absence.Absence;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.rule.StartupVerdict.Outcome;
import leat.watch.BenchFeed.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What happens to a sound machine on its days, and calls nobody. The bench plays it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class OrdinaryDaysTest {

    private final Tapes tapes = new Tapes();

    static Wiring[] wirings() {
        return Wiring.tried();
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void supplies_from_thirty_to_sixty_psi_under_any_noise_call_nobody(Wiring wiring) {
        for (double noise : Gear.everyNth(2, List.of(0.2, 0.6, 1.2))) {
            for (int supply = 30; supply <= 60; supply += Gear.of(15, 5)) {
                Plays play = Plays.of(supply, 100, supply).run(20, 100).run(140, 200);

                Told told = play.feed(260).from(tapes).wiring(wiring).noise(noise, supply).told();

                assertThat(told.raised()).as("%s psi, noise %s", supply, noise).isEmpty();
                assertThat(told.verdicts)
                        .extracting(v -> v.outcome())
                        .as("%s psi, noise %s", supply, noise)
                        .containsExactly(Outcome.GOOD, Outcome.GOOD);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void readings_that_stand_still_to_the_bit_at_rest_and_running_are_not_called_stuck(
            Wiring wiring) {
        for (double noise : Gear.everyNth(2, List.of(0.0, 0.01, 0.03))) {
            Plays play = Plays.usual(3).run(600, 700).run(1300, 1500);

            Told told = play.feed(1600).from(tapes).wiring(wiring).noise(noise, 1).told();

            assertThat(told.raised()).as("noise %s", noise).isEmpty();
        }
    }

    static List<Double> pauses() {
        return Gear.everyNth(2, List.of(0.5, 1.0, 1.5, 2.0, 3.0, 5.0, 8.0));
    }

    static List<Double> shortPauses() {
        return Gear.everyNth(2, List.of(0.5, 1.0, 1.5, 2.0, 3.0, 5.0));
    }

    @ParameterizedTest
    @MethodSource("pauses")
    void restarts_within_seconds_call_nobody(double pause) {
        for (Wiring wiring : Wiring.tried()) {
            for (int seed = 1; seed <= Gear.of(1, 5); seed++) {
                Plays play = Plays.usual(seed).run(10, 50).run(50 + pause, 90);
                play.run(90 + 2 * pause, 130);

                Told told = play.feed(180).from(tapes).wiring(wiring).told();

                assertThat(told.raised()).as("%s seed %d", wiring, seed).isEmpty();
            }
        }
    }

    @ParameterizedTest
    @MethodSource("shortPauses")
    void a_worn_booster_restarted_within_seconds_has_risen_though_it_climbs_little(double pause) {
        for (Wiring wiring : Wiring.tried()) {
            Plays play =
                    Plays.of(44.5, 100, 2)
                            .strike(0, Fault.WORN_BOOSTER, 0.9)
                            .run(5, 70)
                            .run(70 + pause, 130);

            Told told = play.feed(150).from(tapes).wiring(wiring).told();

            assertThat(told.raised())
                    .as("%s", wiring)
                    .containsExactly("ratio WARNING", "level-low WARNING");
        }
    }

    @ParameterizedTest
    @EnumSource(
            value = Wiring.class,
            names = {"RUNNING", "VALVE", "RUNNING_AND_VALVE"})
    void every_start_that_a_run_signal_tells_of_is_an_outcome_though_it_was_broken_off(
            Wiring wiring) {
        Plays play = Plays.usual(2).run(5, 5.8).run(15, 17).run(25, 28).run(40, 46).run(60, 100);

        Told told = play.feed(120).from(tapes).wiring(wiring).told();

        assertThat(told.verdicts)
                .extracting(v -> v.outcome())
                .containsExactly(
                        Outcome.NOT_JUDGED,
                        Outcome.NOT_JUDGED,
                        Outcome.NOT_JUDGED,
                        Outcome.GOOD,
                        Outcome.GOOD);
        assertThat(told.note(1))
                .matches("not judged: broken off after 2.[0-2] s: the run signal went off");
        assertThat(told.startups.get(1).riseSeconds().absentBecause()).isEqualTo(Absence.CUT_SHORT);
        assertThat(told.raised()).isEmpty();
    }

    @Test
    void aborted_starts_are_seen_from_the_pressures_alone_and_call_nobody() {
        Plays play = Plays.usual(2).run(5, 6.5).run(15, 17).run(25, 28).run(60, 100);

        Told told = play.feed(120).from(tapes).told();

        assertThat(told.raised()).isEmpty();
        assertThat(told.verdicts)
                .extracting(v -> v.outcome())
                .containsExactly(
                        Outcome.NOT_JUDGED, Outcome.NOT_JUDGED, Outcome.NOT_JUDGED, Outcome.GOOD);
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void dips_of_the_shop_supply_call_nobody(Wiring wiring) {
        Plays play = Plays.usual(5).run(10, 300);
        for (int dip = 0; dip < 8; dip++) {
            double severity = 0.15 + 0.03 * dip;
            play.strike(40 + 30 * dip, Fault.WEAK_SUPPLY, severity);
            play.repair(43 + 31 * dip, Fault.WEAK_SUPPLY);
        }

        Told told = play.feed(340).from(tapes).wiring(wiring).told();

        assertThat(told.raised()).isEmpty();
        assertThat(told.startups).hasSize(1);
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void a_turn_of_the_regulator_while_running_is_neither_a_stop_nor_a_start(Wiring wiring) {
        Plays play =
                Plays.of(42, 86, 7)
                        .strike(0, Fault.SET_TOO_HIGH, 0.5)
                        .start(5)
                        .repair(60, Fault.SET_TOO_HIGH)
                        .strike(130, Fault.SET_TOO_HIGH, 0.5)
                        .stop(200);

        Told told = play.feed(240).from(tapes).wiring(wiring).told();

        assertThat(told.phases)
                .extracting(PhaseChange::to)
                .containsExactly(
                        Phase.REST, Phase.RISE, Phase.STEADY, Phase.FALL, Phase.REST, Phase.BLIND);
        assertThat(told.raised()).containsExactly("level-low ADVISORY");
        assertThat(told.alarms.get(1).event()).isEqualTo(AlarmEvent.RETURNED);
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void twice_a_second_with_the_channels_in_turn_a_sound_machine_calls_nobody(Wiring wiring) {
        for (int seed = 1; seed <= Gear.of(1, 10); seed++) {
            Plays play = Plays.of(30 + 3 * seed, 100, seed).run(20, 80).run(84, 130).run(200, 240);

            Told told =
                    play.feed(300).from(tapes).wiring(wiring).published().noise(0.6, seed).told();

            assertThat(told.raised()).as("seed %d", seed).isEmpty();
            assertThat(told.verdicts.get(0).outcome()).as("seed %d", seed).isEqualTo(Outcome.GOOD);
        }
    }

    @Test
    void a_slow_start_read_twice_a_second_is_forgiven_by_a_quick_one() {
        Plays play = Plays.usual(9).strike(0, Fault.AIR, 1).run(10, 60);
        play.repair(60, Fault.AIR).run(120, 160);

        Told told = play.feed(200).from(tapes).published().told();

        assertThat(told.alarms)
                .extracting(a -> a.event())
                .isEqualTo(List.of(AlarmEvent.RAISED, AlarmEvent.RETURNED));
    }
}
