package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class StartsTest {

    private static final LocalDate MONDAY = LocalDate.of(2026, 1, 5);
    private static final Set<DayOfWeek> WEEK = EnumSet.range(DayOfWeek.MONDAY, DayOfWeek.FRIDAY);

    private final Starts starts =
            new Starts(10, Duration.ofMinutes(20), LocalTime.of(7, 0), LocalTime.of(16, 0), WEEK);

    private List<Starts.Run> year(long seed) {
        List<Starts.Run> runs = new ArrayList<>();
        for (int day = 0; day < 364; day++) {
            runs.addAll(starts.of(MONDAY.plusDays(day), seed));
        }
        return runs;
    }

    @Test
    void each_shift_has_its_runs_and_other_days_have_none() {
        assertThat(starts.of(MONDAY, 1)).hasSize(10);
        assertThat(starts.of(MONDAY.plusDays(4), 1)).hasSize(10);
        assertThat(starts.of(MONDAY.plusDays(5), 1)).isEmpty();
        assertThat(year(1)).hasSize(52 * 5 * 10);
    }

    @Test
    void runs_lie_in_the_shift_and_leave_a_rest_between_them() {
        List<Starts.Run> runs = year(7);

        assertThat(runs)
                .allMatch(run -> !run.on().toLocalTime().isBefore(LocalTime.of(7, 0)))
                .allMatch(run -> !run.off().toLocalTime().isAfter(LocalTime.of(16, 0)));
        assertThat(IntStream.range(1, runs.size()))
                .allMatch(
                        i ->
                                Duration.between(runs.get(i - 1).off(), runs.get(i).on())
                                                .toSeconds()
                                        >= 90);
    }

    @Test
    void runs_last_a_fifth_longer_or_shorter_by_chance() {
        List<Long> seconds =
                year(7).stream()
                        .map(run -> Duration.between(run.on(), run.off()).toSeconds())
                        .toList();

        assertThat(seconds).allMatch(s -> s >= 960 - 1 && s <= 1440 + 1);
        assertThat(seconds.stream().min(Long::compare).orElseThrow()).isLessThan(1000);
        assertThat(seconds.stream().max(Long::compare).orElseThrow()).isGreaterThan(1400);
    }

    @Test
    void the_seed_decides_the_moments() {
        assertThat(starts.of(MONDAY, 3)).isEqualTo(starts.of(MONDAY, 3));
        assertThat(starts.of(MONDAY, 4)).isNotEqualTo(starts.of(MONDAY, 3));
        assertThat(starts.of(MONDAY.plusDays(1), 3).get(0).on().toLocalTime())
                .isNotEqualTo(starts.of(MONDAY, 3).get(0).on().toLocalTime());
    }

    @Test
    void more_than_fits_into_a_shift_is_refused() {
        assertThatThrownBy(
                        () ->
                                new Starts(
                                        30,
                                        Duration.ofMinutes(20),
                                        LocalTime.of(7, 0),
                                        LocalTime.of(16, 0),
                                        WEEK))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "30 runs of 1200 s do not fit between 07:00 and 16:00: each needs up to"
                                + " 1530 s with the rest after it, and has 1080 s");
    }

    @Test
    void a_rota_that_begins_in_the_middle_of_a_run_leaves_that_run_out() {
        Starts.Run first = starts.of(MONDAY, 3).get(0);
        Starts.Run second = starts.of(MONDAY, 3).get(1);
        LocalDateTime zero = first.on().plusMinutes(1);

        Rota rota = new Rota(Optional.of(starts), 3, zero);

        assertThat(rota.nextMicros())
                .isEqualTo(Duration.between(zero, second.on()).toNanos() / 1000);
        assertThat(rota.take()).isEqualTo(new Event.Start());
        assertThat(rota.take()).isEqualTo(new Event.Stop());
    }
}
