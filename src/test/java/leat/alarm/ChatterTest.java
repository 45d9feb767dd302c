package leat.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import org.junit.jupiter.api.Test;

/** Three activations within five minutes chatter; ten quiet minutes end it (the defaults). */
class ChatterTest {

    private static final long START = 1_767_592_800_000_000L;

    private final List<AlarmChange> changes = new ArrayList<>();
    private final AlarmBook book = new AlarmBook("jet-1", Limits.with(Map.of()), changes::add);

    private static long at(long second) {
        return START + second * 1_000_000;
    }

    private ChatterTest found(Grade grade, long second) {
        book.found(
                new Finding(
                        Rule.INLET,
                        Channel.INLET,
                        grade,
                        at(second),
                        at(second),
                        Quantity.PRESSURE_PSI,
                        20,
                        25,
                        Sense.AT_LEAST,
                        Figure.of(20),
                        Figure.of(90),
                        List.of()));
        return this;
    }

    private ChatterTest cleared(long second) {
        Figure psi = Figure.of(40);
        book.cleared(Rule.INLET, Channel.INLET, at(second), psi, psi, List.of());
        return this;
    }

    /** Comes and goes every 30 s. */
    private void comeAndGo(int times) {
        for (int i = 0; i < times; i++) {
            found(Grade.ADVISORY, 30L * i).cleared(30L * i + 15);
        }
    }

    private void ticks(long from, long to) {
        for (long second = from; second <= to; second++) {
            book.tick(at(second));
        }
    }

    private List<AlarmEvent> events() {
        return changes.stream().map(AlarmChange::event).toList();
    }

    private AlarmChange last() {
        return changes.get(changes.size() - 1);
    }

    @Test
    void
            a_line_that_comes_and_goes_forty_times_is_one_alarm_with_a_count_and_is_told_three_times() {
        comeAndGo(40);

        assertThat(changes).extracting(AlarmChange::alarmId).containsOnly(last().alarmId());
        assertThat(last().notes().count()).isEqualTo(40);
        assertThat(last().notes().chattering()).isTrue();
        assertThat(changes.stream().filter(AlarmChange::isCall).map(AlarmChange::event))
                .containsExactly(AlarmEvent.RAISED, AlarmEvent.RAISED, AlarmEvent.CHATTERING);
        assertThat(changes.subList(5, changes.size())).allMatch(AlarmChange::isSilent);
    }

    @Test
    void it_is_let_go_after_ten_quiet_minutes_and_not_a_second_before() {
        comeAndGo(5); // last seen at 135 s
        ticks(136, 734);
        assertThat(last().to()).isEqualTo(AlarmState.UNACKNOWLEDGED);

        ticks(735, 735);

        assertThat(last().event()).isEqualTo(AlarmEvent.RETURNED);
        assertThat(last().to()).isEqualTo(AlarmState.RETURNED_UNACKNOWLEDGED);
        assertThat(last().notes().count()).isEqualTo(5);
        assertThat(last().notes().chattering()).isFalse();
        assertThat(last().finding().inletPsi()).isEqualTo(Figure.of(40));
    }

    @Test
    void one_that_comes_to_stay_stands_on_and_is_not_called_again() {
        comeAndGo(3);
        found(Grade.ADVISORY, 90);

        ticks(91, 700);

        assertThat(last().event()).isEqualTo(AlarmEvent.SETTLED);
        assertThat(last().isCall()).isFalse();
        assertThat(last().to()).isEqualTo(AlarmState.UNACKNOWLEDGED);
    }

    @Test
    void while_it_chatters_a_graver_grade_is_called_once_and_its_repeats_are_counted() {
        comeAndGo(3);
        found(Grade.CRITICAL, 90).cleared(100).found(Grade.CRITICAL, 110).cleared(120);

        assertThat(events().subList(5, events().size()))
                .containsExactly(AlarmEvent.WORSENED, AlarmEvent.REPEATED);
        assertThat(changes.get(5).isCall()).isTrue();
        assertThat(last().finding().grade()).isEqualTo(Grade.CRITICAL);
        assertThat(last().notes().count()).isEqualTo(5);
    }

    @Test
    void when_it_settles_at_a_milder_grade_it_eases() {
        comeAndGo(2);
        found(Grade.CRITICAL, 60).found(Grade.ADVISORY, 70);

        ticks(71, 700);

        assertThat(events().subList(4, events().size()))
                .containsExactly(AlarmEvent.CHATTERING, AlarmEvent.SETTLED, AlarmEvent.EASED);
        assertThat(last().finding().grade()).isEqualTo(Grade.ADVISORY);
    }

    @Test
    void a_slide_from_mild_to_grave_is_one_coming_and_no_chattering() {
        found(Grade.ADVISORY, 0).found(Grade.WARNING, 20).found(Grade.CRITICAL, 40);

        assertThat(events())
                .containsExactly(AlarmEvent.RAISED, AlarmEvent.WORSENED, AlarmEvent.WORSENED);
        assertThat(last().notes().count()).isEqualTo(1);
    }

    @Test
    void a_grade_that_swings_to_and_fro_chatters_too() {
        found(Grade.ADVISORY, 0).found(Grade.WARNING, 20).found(Grade.ADVISORY, 40);
        found(Grade.WARNING, 60).found(Grade.ADVISORY, 80).found(Grade.WARNING, 100);

        assertThat(last().event()).isEqualTo(AlarmEvent.CHATTERING);
    }

    @Test
    void an_acknowledged_one_that_repeats_stays_acknowledged() {
        comeAndGo(3);
        book.follow(new Instruction(at(80), "kim", new Order.Acknowledge(last().alarmId())));

        found(Grade.ADVISORY, 90).cleared(105).found(Grade.ADVISORY, 120);

        assertThat(last().event()).isEqualTo(AlarmEvent.REPEATED);
        assertThat(last().to()).isEqualTo(AlarmState.ACKNOWLEDGED);
    }

    @Test
    void three_activations_in_a_little_more_than_five_minutes_are_three_calls() {
        found(Grade.ADVISORY, 0).cleared(10).found(Grade.ADVISORY, 151).cleared(161);

        found(Grade.ADVISORY, 301);

        assertThat(last().event()).isEqualTo(AlarmEvent.RAISED);
    }

    @Test
    void what_comes_again_soon_after_it_was_acknowledged_is_the_same_alarm() {
        found(Grade.ADVISORY, 0);
        book.follow(new Instruction(at(5), "kim", new Order.Acknowledge(last().alarmId())));
        cleared(10);

        found(Grade.ADVISORY, 300);

        assertThat(last().alarmId()).isEqualTo(changes.get(0).alarmId());
        assertThat(last().notes().count()).isEqualTo(2);
        assertThat(last().isCall()).isTrue();
    }

    @Test
    void a_set_clock_makes_nothing_chatter() {
        found(Grade.ADVISORY, 0).cleared(10).found(Grade.ADVISORY, 60).cleared(70);

        book.step(at(80), at(-3_600));
        found(Grade.ADVISORY, -3_590);

        assertThat(last().event()).isEqualTo(AlarmEvent.RAISED);
    }

    @Test
    void a_clock_set_back_does_not_make_its_ten_quiet_minutes_longer() {
        comeAndGo(3);

        book.step(at(80), at(-3_520));
        ticks(-3_519, -2_920);

        assertThat(last().event()).isEqualTo(AlarmEvent.RETURNED);
        assertThat(last().atMicros()).isEqualTo(at(-2_920));
    }
}
