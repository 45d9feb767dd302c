package leat.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
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
import leat.wire.StateBytes;
import leat.words.AlarmWords;
import org.junit.jupiter.api.Test;

class AlarmBookTest {

    private static final long START = 1_767_592_800_000_000L;

    private final List<AlarmChange> changes = new ArrayList<>();
    private final AlarmBook book = new AlarmBook("jet-1", Limits.DEFAULTS, changes::add);

    private static Finding low(long second) {
        long at = START + second * 1_000_000;
        return new Finding(
                Rule.LEVEL_LOW,
                Channel.BOOSTED,
                Grade.WARNING,
                at,
                at,
                Quantity.PRESSURE_PSI,
                70,
                80,
                Sense.AT_LEAST,
                Figure.of(42),
                Figure.of(70),
                List.of());
    }

    private void raise(long second) {
        book.found(low(second));
    }

    private void clear(long second) {
        book.cleared(
                Rule.LEVEL_LOW,
                Channel.BOOSTED,
                START + second * 1_000_000,
                Figure.of(42),
                Figure.of(100),
                List.of());
    }

    private boolean acknowledge(String id, long second) {
        long at = START + second * 1_000_000;
        return book.follow(new Instruction(at, "kim", new Order.Acknowledge(id))).isEmpty();
    }

    @Test
    void an_alarm_that_comes_back_unacknowledged_goes_on_under_its_id_and_can_be_acknowledged() {
        raise(10);
        clear(20);
        raise(30);
        clear(40);
        String id = changes.get(0).alarmId();

        boolean done = acknowledge(id, 50);

        assertThat(done).isTrue();
        assertThat(changes).extracting(AlarmChange::alarmId).containsOnly(id);
        assertThat(changes).extracting(AlarmChange::revision).containsExactly(1, 2, 3, 4, 5);
        assertThat(changes.get(2).raisedAtMicros()).isEqualTo(START + 30_000_000);
        assertThat(changes.get(4).to()).isEqualTo(AlarmState.NORMAL);
    }

    @Test
    void an_alarm_that_comes_again_after_it_was_normal_is_a_new_one() {
        raise(10);
        acknowledge(changes.get(0).alarmId(), 11);
        clear(20);

        raise(311);

        assertThat(changes.get(3).alarmId()).isNotEqualTo(changes.get(0).alarmId());
        assertThat(changes.get(3).revision()).isEqualTo(1);
    }

    @Test
    void what_is_acknowledged_already_or_unknown_is_refused_with_a_reason() {
        raise(10);
        String id = changes.get(0).alarmId();
        acknowledge(id, 11);

        assertThat(
                        book.follow(new Instruction(START, "kim", new Order.Acknowledge(id)))
                                .map(AlarmWords.ENGLISH::refusal)
                                .orElseThrow())
                .contains("acknowledged");
        assertThat(
                        book.follow(new Instruction(START, "kim", new Order.Acknowledge("x")))
                                .map(AlarmWords.ENGLISH::refusal)
                                .orElseThrow())
                .contains("the alarm x is over, or there was none");
    }

    @Test
    void a_condition_that_goes_without_having_come_is_no_change() {
        clear(10);

        assertThat(changes).isEmpty();
    }

    @Test
    void a_state_taken_up_again_goes_on_counting() {
        raise(10);
        acknowledge(changes.get(0).alarmId(), 11);
        clear(20);
        byte[] state = StateBytes.of(1, book::keep);
        List<AlarmChange> later = new ArrayList<>();
        AlarmBook restored = new AlarmBook("jet-1", Limits.DEFAULTS, later::add);

        StateBytes.into(1, state, restored::keep);
        restored.found(low(311));

        assertThat(later.get(0).alarmId()).endsWith("-2");
    }
}
