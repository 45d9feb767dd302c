package leat.replay;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Weeks of ISO 8601: 2026 begins on a Thursday, so its first week begins on 29 December 2025. */
class WeekCountTest {

    private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");

    private static AlarmCall call(String at, Rule rule, Grade grade) {
        long micros = Instant.parse(at).toEpochMilli() * 1_000;
        Finding finding =
                new Finding(
                        rule,
                        Channel.BOOSTED,
                        grade,
                        micros,
                        micros,
                        Finding.Quantity.TIME_SECONDS,
                        4,
                        3,
                        Finding.Sense.AT_MOST,
                        Figure.of(40),
                        Figure.of(90),
                        List.of());
        return new AlarmCall(finding, micros, OptionalLong.empty(), micros, micros);
    }

    private static Backtest.Change gone(String at, Rule rule, Grade grade) {
        return new Backtest.Change(
                Backtest.Effect.GONE, Optional.of(call(at, rule, grade)), Optional.empty());
    }

    private static Backtest.Change came(String at, Rule rule, Grade grade) {
        return new Backtest.Change(
                Backtest.Effect.NEW, Optional.empty(), Optional.of(call(at, rule, grade)));
    }

    private static Backtest backtest(Backtest.Change... changes) {
        return new Backtest(
                "jet-1",
                0,
                1,
                1,
                List.of(changes),
                new Backtest.Heard(List.of(), List.of()),
                new Backtest.Runs(RunCount.NONE, RunCount.NONE));
    }

    /** Clocks in Berlin went forward on 29 March 2026 and go back on 25 October 2026. */
    @ParameterizedTest
    @CsvSource({
        "2025-12-28T22:59:59Z, 2025-W52",
        "2025-12-28T23:00:00Z, 2026-W01",
        "2026-01-04T23:00:00Z, 2026-W02",
        "2026-03-22T22:59:59Z, 2026-W12",
        "2026-03-22T23:00:00Z, 2026-W13",
        "2026-03-29T21:59:59Z, 2026-W13",
        "2026-03-29T22:00:00Z, 2026-W14",
        "2026-10-25T22:59:59Z, 2026-W43",
        "2026-10-25T23:00:00Z, 2026-W44",
        "2026-12-31T12:00:00Z, 2026-W53",
        "2027-01-03T22:59:59Z, 2026-W53",
        "2027-01-03T23:00:00Z, 2027-W01"
    })
    void a_week_begins_at_midnight_before_monday_in_the_zone_of_the_site(String at, String week) {
        Backtest backtest = backtest(gone(at, Rule.RISE, Grade.WARNING));

        List<WeekCount> counts = WeekCount.of(List.of(backtest), BERLIN);

        assertThat(counts).extracting(WeekCount::week).containsExactly(week);
    }

    @Test
    void calls_count_per_week_rule_and_grade_over_all_machines_the_gravest_first() {
        Backtest one =
                backtest(
                        gone("2026-01-06T06:00:00Z", Rule.RISE, Grade.ADVISORY),
                        gone("2026-01-07T06:00:00Z", Rule.RISE, Grade.ADVISORY),
                        came("2026-01-08T06:00:00Z", Rule.RISE, Grade.WARNING),
                        gone("2026-01-13T06:00:00Z", Rule.RATIO, Grade.WARNING));
        Backtest other = backtest(gone("2026-01-09T06:00:00Z", Rule.RISE, Grade.WARNING));

        List<WeekCount> counts = WeekCount.of(List.of(one, other), BERLIN);

        LocalDate second = LocalDate.parse("2026-01-05");
        assertThat(counts)
                .containsExactly(
                        new WeekCount(second, Rule.RISE, Grade.WARNING, 1, 1),
                        new WeekCount(second, Rule.RISE, Grade.ADVISORY, 2, 0),
                        new WeekCount(second.plusWeeks(1), Rule.RATIO, Grade.WARNING, 1, 0));
    }

    @Test
    void a_week_that_begins_on_another_day_is_refused() {
        assertThatThrownBy(
                        () ->
                                new WeekCount(
                                        LocalDate.parse("2026-01-06"),
                                        Rule.RISE,
                                        Grade.WARNING,
                                        1,
                                        1))
                .hasMessageContaining("no Monday");
    }
}
