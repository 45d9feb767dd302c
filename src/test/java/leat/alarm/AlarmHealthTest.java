package leat.alarm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;

/**
 * The definitions are those of ANSI/ISA-18.2-2016, 16.4, read at second hand: a flood begins with
 * more than ten alarms in ten minutes and ends with fewer than five; stale is longer than 24 h.
 */
class AlarmHealthTest {

    private static final long START = 1_767_592_800_000_000L; // 06:00, the edge of an interval
    private static final long MINUTE = 60_000_000;
    private static final long DAY = 1_440 * MINUTE;

    private final List<AlarmChange> changes = new ArrayList<>();

    private static AlarmChange raised(String alarm, Grade grade, long atMicros) {
        Finding finding =
                new Finding(
                        Rule.RATIO,
                        Channel.BOOSTED,
                        grade,
                        atMicros,
                        atMicros,
                        Quantity.RATIO,
                        1.6,
                        2,
                        Sense.AT_LEAST,
                        Figure.of(44),
                        Figure.of(72),
                        List.of());
        return new AlarmChange(
                alarm + ".20260105T060101Z-1",
                1,
                AlarmEvent.RAISED,
                AlarmState.NORMAL,
                AlarmState.UNACKNOWLEDGED,
                atMicros,
                atMicros,
                finding,
                "");
    }

    /** So many calls within the ten minutes that begin at this minute. */
    private AlarmHealthTest calls(int count, long minute) {
        for (int i = 0; i < count; i++) {
            changes.add(
                    raised("jet-1.ratio", Grade.WARNING, START + minute * MINUTE + i * 1_000_000L));
        }
        return this;
    }

    private AlarmHealth health(long days) {
        return AlarmHealth.of(changes, List.of(), START, START + days * DAY);
    }

    @Test
    void ten_alarms_in_an_interval_are_no_flood_and_eleven_are_one() {
        assertThat(calls(10, 0).health(1).floods()).isZero();

        assertThat(calls(11, 30).health(1).floods()).isEqualTo(1);
        assertThat(health(1).mostIn10Min()).isEqualTo(11);
    }

    @Test
    void a_flood_goes_on_until_an_interval_has_fewer_than_five() {
        AlarmHealth health = calls(11, 0).calls(5, 10).calls(11, 20).calls(4, 30).health(1);

        assertThat(health.floods()).isEqualTo(1);
        assertThat(health.floodShare()).isEqualTo(3 / 145.0);
        assertThat(health.crowded10Min()).isEqualTo(2 / 145.0);
    }

    @Test
    void after_an_end_another_flood_counts_as_another() {
        assertThat(calls(11, 0).calls(12, 20).health(1).floods()).isEqualTo(2);
    }

    @Test
    void rates_are_per_day_and_per_ten_minutes() {
        AlarmHealth health = calls(10, 0).calls(10, 60).health(10);

        assertThat(health.callsPerDay()).isEqualTo(2);
        assertThat(health.callsPer10Min()).isCloseTo(2 / 144.0, within(1e-12));
    }

    @Test
    void an_hour_with_more_than_thirty_is_counted() {
        AlarmHealth health = calls(10, 0).calls(10, 10).calls(11, 20).health(1);

        assertThat(health.crowdedHours()).isEqualTo(1 / 25.0);
    }

    @Test
    void grades_and_the_most_frequent_are_counted_over_all_machines() {
        for (int i = 0; i < 12; i++) {
            changes.add(raised("jet-" + i + ".rise", Grade.ADVISORY, START + i * DAY / 24));
        }
        calls(8, 2_000);

        AlarmHealth health = health(30);

        assertThat(health.byGrade())
                .isEqualTo(Map.of(Grade.ADVISORY, 12L, Grade.WARNING, 8L, Grade.CRITICAL, 0L));
        assertThat(health.topTen()).hasSize(10);
        assertThat(health.topTen().get(0)).isEqualTo(new AlarmHealth.Frequent("jet-1.ratio", 8));
        assertThat(health.topTenShare()).isEqualTo(17 / 20.0);
    }

    @Test
    void stale_is_what_stands_for_more_than_a_day_and_is_not_held_back() {
        AlarmChange old = raised("jet-1.ratio", Grade.WARNING, START - 1);
        AlarmChange young = raised("jet-1.rise", Grade.WARNING, START);

        AlarmHealth health = AlarmHealth.of(List.of(), List.of(old, young), START, START + DAY);

        assertThat(health.stale()).isEqualTo(1);
    }

    @Test
    void nothing_is_nothing() {
        AlarmHealth health = AlarmHealth.of(List.of(), List.of(), START, START);

        assertThat(health.callsPerDay()).isZero();
        assertThat(health.topTenShare()).isZero();
        assertThat(health.floodShare()).isZero();
    }
}
