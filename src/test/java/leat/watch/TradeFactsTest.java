package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import leat.phase.Phase;
import leat.rule.StartupVerdict;
import leat.signal.Instruction;
import leat.signal.Order;
import org.junit.jupiter.api.Test;

/** The trade's rules of thumb; all of them common practice, no source. */
class TradeFactsTest {

    private static Line started(Line line, double level, double tau) {
        return line.at(0).hold(8).towards(level, tau, 60);
    }

    @Test
    void forty_in_and_eighty_out_is_just_doubled_and_no_weak_boost() {
        Line line = started(Line.quiet().inlet(40), 80.2, 0.6);

        Told told = Told.by(line);

        assertThat(told.raised()).containsExactly("level-low ADVISORY");
        assertThat(told.startups).hasSize(1);
        assertThat(told.startups.get(0).ratio().get()).isCloseTo(2.0, within(0.02));
    }

    @Test
    void a_hundred_psi_is_good() {
        Told told = Told.by(started(Line.withSeed(1).inlet(40), 102, 0.6));

        assertThat(told.raised()).isEmpty();
        assertThat(told.verdicts)
                .extracting(StartupVerdict::outcome)
                .containsExactly(StartupVerdict.Outcome.GOOD);
    }

    @Test
    void fifty_seven_in_and_a_hundred_and_five_out_calls_nobody() {
        assertThat(Told.by(started(Line.withSeed(2).inlet(57), 105, 0.6)).raised()).isEmpty();
    }

    @Test
    void above_a_hundred_and_twenty_is_high() {
        Line line = started(Line.withSeed(3).inlet(42), 125, 0.6).hold(30);

        assertThat(Told.by(line).raised()).containsExactly("level-high ADVISORY");
    }

    @Test
    void above_a_hundred_and_forty_is_a_warning() {
        Line line = started(Line.withSeed(3).inlet(42), 150, 0.6).hold(30);

        assertThat(Told.by(line).raised()).containsExactly("level-high WARNING");
    }

    @Test
    void a_worn_booster_is_a_warning() {
        Told told = Told.by(started(Line.withSeed(4).inlet(42), 74, 0.6));

        assertThat(told.raised())
                .contains("ratio WARNING", "level-low WARNING")
                .doesNotContain("ratio CRITICAL");
    }

    @Test
    void a_gauge_that_barely_climbs_is_a_booster_that_does_not_boost() {
        Told told = Told.by(started(Line.withSeed(5).inlet(42), 41, 0.5));

        assertThat(told.raised()).containsExactly("ratio CRITICAL");
    }

    @Test
    void no_climb_at_all_with_the_booster_running_is_critical_at_twelve_seconds() {
        Line line = Line.withSeed(6).runSignal().inlet(42).at(40).hold(20).running(true).hold(30);

        Told told = Told.by(line);

        assertThat(told.raised()).containsExactly("rest WARNING", "rise CRITICAL");
        long after = told.alarms.get(1).atMicros() - told.startups.get(0).startedAtMicros();
        assertThat(after).isBetween(12_000_000L, 13_000_000L);
    }

    @Test
    void forty_at_rest_with_the_water_shut_is_a_leaking_valve() {
        Told told = Told.by(Line.withSeed(7).inlet(42).at(40).hold(40));

        assertThat(told.raised()).containsExactly("rest WARNING");
    }

    @Test
    void a_little_pressure_left_at_rest_is_an_advisory() {
        Line line = started(Line.withSeed(8), 100, 0.6).towards(18, 1.5, 60);

        Told told = Told.by(line);

        assertThat(told.raised()).containsExactly("rest ADVISORY");
        assertThat(told.rests).hasSize(1);
        assertThat(told.rests.get(0).boostedPsi().get()).isCloseTo(18, within(1.0));
    }

    @Test
    void pressure_that_still_falls_at_rest_is_not_judged() {
        Line line = started(Line.withSeed(9), 100, 0.6).towards(0, 12, 90);

        assertThat(Told.by(line).raised()).isEmpty();
    }

    @Test
    void with_the_water_shut_the_boosted_gauge_reads_zero() {
        Line line = started(Line.withSeed(10), 100, 0.6).towards(0, 1.5, 40);

        Told told = Told.by(line);

        assertThat(told.raised()).isEmpty();
        assertThat(told.rests).hasSize(1);
        assertThat(told.rests.get(0).boostedPsi().get()).isCloseTo(0, within(0.5));
        assertThat(told.phases)
                .extracting(c -> c.to())
                .containsExactly(Phase.REST, Phase.RISE, Phase.STEADY, Phase.FALL, Phase.REST);
    }

    @Test
    void a_slow_first_rise_after_service_is_noted_and_raises_nothing() {
        Line line = Line.withSeed(11);
        line.input(
                new Instruction(
                        line.now(), "tech", new Order.Journal(Order.Entry.SERVICED, "new pump")));
        started(line, 100, 2.5);

        Told told = Told.by(line);

        assertThat(told.raised()).isEmpty();
        assertThat(told.verdicts).hasSize(1);
        assertThat(told.verdicts.get(0).outcome()).isEqualTo(StartupVerdict.Outcome.RELAXED);
        assertThat(told.note(0)).contains("start 1 of 3 after service");
    }

    @Test
    void the_same_slow_rise_without_service_is_an_advisory() {
        assertThat(Told.by(started(Line.withSeed(11), 100, 1.6)).raised())
                .containsExactly("rise ADVISORY");
    }

    @Test
    void a_rise_beyond_six_seconds_is_a_warning() {
        Told told = Told.by(started(Line.withSeed(12), 100, 3.2));

        assertThat(told.raised()).containsExactly("rise WARNING");
    }

    @Test
    void a_starved_booster_is_critical_and_the_low_boost_is_no_news() {
        Line line =
                Line.withSeed(13)
                        .runSignal()
                        .inlet(42)
                        .at(0)
                        .hold(10)
                        .running(true)
                        .inlet(1)
                        .hold(40);

        assertThat(Told.by(line).raised()).containsExactly("inlet CRITICAL");
    }

    @Test
    void a_supply_shut_while_running_is_seen_without_a_run_signal() {
        Line line = started(Line.withSeed(14).inlet(42), 100, 0.6).inlet(0).towards(0, 0.8, 8);

        assertThat(Told.by(line).raised()).containsExactly("inlet CRITICAL");
    }

    @Test
    void a_weak_supply_is_an_advisory_then_a_warning() {
        assertThat(Told.by(started(Line.withSeed(15).inlet(22), 100, 0.6)).raised())
                .containsExactly("inlet ADVISORY");
        assertThat(Told.by(started(Line.withSeed(15).inlet(12), 100, 0.6)).raised())
                .containsExactly("inlet WARNING");
    }
}
