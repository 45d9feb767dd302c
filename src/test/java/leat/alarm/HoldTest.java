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
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.words.AlarmWords;
import org.junit.jupiter.api.Test;

class HoldTest {

    private static final long START = 1_767_592_800_000_000L;

    private final List<AlarmChange> changes = new ArrayList<>();
    private final AlarmBook book =
            new AlarmBook("jet-1", Limits.with(Map.of(Limit.INLET_LATCH, 1.0)), changes::add);

    private static long at(long second) {
        return START + second * 1_000_000;
    }

    private void found(Grade grade, long second) {
        book.found(
                new Finding(
                        Rule.INLET,
                        Channel.INLET,
                        grade,
                        at(second),
                        at(second),
                        Quantity.PRESSURE_PSI,
                        3,
                        5,
                        Sense.AT_LEAST,
                        Figure.of(3),
                        Figure.of(90),
                        List.of()));
    }

    private void cleared(long second) {
        Figure psi = Figure.of(40);
        book.cleared(Rule.INLET, Channel.INLET, at(second), psi, psi, List.of());
    }

    private String shelve(long second, long hours, String id) {
        long until = at(second) + hours * 3_600_000_000L;
        return book.follow(
                        new Instruction(
                                at(second), "kim", new Order.Shelve(id, until, "part on order")))
                .map(AlarmWords.ENGLISH::refusal)
                .orElse("done");
    }

    private AlarmChange last() {
        return changes.get(changes.size() - 1);
    }

    private String id() {
        return last().alarmId();
    }

    @Test
    void a_shelf_says_who_why_and_until_when_and_ends_on_the_tick_of_its_end() {
        found(Grade.WARNING, 0);

        assertThat(shelve(10, 8, id())).isEqualTo("done");
        assertThat(last().to()).isEqualTo(AlarmState.SHELVED);
        assertThat(last().by()).isEqualTo("kim");
        assertThat(last().notes().why()).isEqualTo("part on order");
        assertThat(last().notes().shelvedUntilMicros()).hasValue(at(10 + 8 * 3_600));
        book.tick(at(10 + 8 * 3_600 - 1));
        assertThat(last().to()).isEqualTo(AlarmState.SHELVED);
        book.tick(at(10 + 8 * 3_600));
        assertThat(last().event()).isEqualTo(AlarmEvent.UNSHELVED);
        assertThat(last().to()).isEqualTo(AlarmState.UNACKNOWLEDGED);
        assertThat(last().isCall()).isTrue();
        assertThat(last().notes().reason()).contains(Reason.TIME_OVER);
        assertThat(last().notes().shelvedUntilMicros()).isEmpty();
    }

    @Test
    void what_gets_graver_than_it_was_when_shelved_breaks_the_shelf() {
        found(Grade.WARNING, 0);
        shelve(10, 8, id());

        found(Grade.CRITICAL, 20);

        assertThat(last().event()).isEqualTo(AlarmEvent.UNSHELVED);
        assertThat(last().finding().grade()).isEqualTo(Grade.CRITICAL);
        assertThat(last().isCall()).isTrue();
        assertThat(last().by()).isEmpty();
    }

    @Test
    void what_comes_and_goes_on_the_shelf_is_written_down_and_told_to_nobody() {
        found(Grade.WARNING, 0);
        shelve(10, 8, id());
        int before = changes.size();

        cleared(1_000);
        found(Grade.WARNING, 2_000);
        cleared(3_000);

        assertThat(changes.subList(before, changes.size()))
                .hasSize(3)
                .allMatch(AlarmChange::isSilent)
                .allMatch(c -> c.to() == AlarmState.SHELVED)
                .allMatch(c -> c.alarmId().equals(id()));
        assertThat(last().notes().count()).isEqualTo(2);
    }

    @Test
    void shelving_is_refused_in_plain_words() {
        found(Grade.WARNING, 0);

        assertThat(shelve(0, 25, id()))
                .isEqualTo(
                        "that would be for 25 h; the longest is 24 h (alarm.longest_hold in"
                                + " site.yaml)");
        assertThat(shelve(0, 0, id())).isEqualTo("the time for which it was to be shelved is over");
        assertThat(shelve(0, 1, "x")).contains("the alarm x is over, or there was none");
        assertThat(
                        book.follow(new Instruction(at(1), "kim", new Order.Unshelve(id())))
                                .map(AlarmWords.ENGLISH::refusal))
                .contains("it is unacknowledged, not shelved");
        assertThat(
                        book.follow(new Instruction(at(1), "kim", new Order.Restore(id())))
                                .map(AlarmWords.ENGLISH::refusal))
                .contains("it is unacknowledged, not out of service");
        assertThat(changes).hasSize(1);
    }

    @Test
    void a_shelved_alarm_cannot_be_acknowledged() {
        found(Grade.WARNING, 0);
        shelve(10, 8, id());

        assertThat(
                        book.follow(new Instruction(at(20), "kim", new Order.Acknowledge(id())))
                                .map(AlarmWords.ENGLISH::refusal))
                .contains("it is shelved, nobody is called for it");
    }

    @Test
    void a_clock_that_is_set_back_makes_no_shelf_longer() {
        found(Grade.WARNING, 0);
        shelve(0, 1, id());

        book.step(at(600), at(600 - 7_200));
        book.tick(at(600 - 7_200 + 3_000));

        assertThat(last().event()).isEqualTo(AlarmEvent.UNSHELVED);
    }

    @Test
    void out_of_service_lasts_until_somebody_puts_it_back_however_grave_it_gets() {
        found(Grade.WARNING, 0);
        book.follow(new Instruction(at(10), "kim", new Order.Remove(id(), "gauge is broken")));

        found(Grade.CRITICAL, 20);
        book.tick(at(40L * 86_400));
        assertThat(last().to()).isEqualTo(AlarmState.OUT_OF_SERVICE);
        assertThat(last().isSilent()).isTrue();
        book.follow(new Instruction(at(30), "lee", new Order.Restore(id())));

        assertThat(last().event()).isEqualTo(AlarmEvent.RESTORED);
        assertThat(last().to()).isEqualTo(AlarmState.UNACKNOWLEDGED);
        assertThat(last().isCall()).isTrue();
    }

    @Test
    void a_starved_inlet_that_latches_waits_for_acknowledgement_and_reset() {
        found(Grade.CRITICAL, 0);
        Instruction reset = new Instruction(at(5), "kim", new Order.Reset(id()));
        assertThat(book.follow(reset).map(AlarmWords.ENGLISH::refusal))
                .contains("its condition still holds, there is nothing to reset");

        cleared(10);
        assertThat(last().to()).isEqualTo(AlarmState.LATCHED_UNACKNOWLEDGED);
        assertThat(book.follow(reset).map(AlarmWords.ENGLISH::refusal))
                .contains("nobody has acknowledged it: acknowledge it first");
        book.follow(new Instruction(at(20), "kim", new Order.Acknowledge(id())));
        assertThat(last().to()).isEqualTo(AlarmState.LATCHED_ACKNOWLEDGED);
        assertThat(book.follow(reset)).isEmpty();

        assertThat(last().to()).isEqualTo(AlarmState.NORMAL);
    }

    @Test
    void only_a_starved_inlet_latches_and_a_milder_one_does_not() {
        found(Grade.WARNING, 0);

        cleared(10);

        assertThat(last().to()).isEqualTo(AlarmState.RETURNED_UNACKNOWLEDGED);
    }

    @Test
    void what_is_found_after_the_clock_was_set_back_is_still_found_during_the_service() {
        Service service = new Service(Limits.with(Map.of()), book, change -> {});
        service.begin(at(100), "kim", "new filter");
        service.step(at(200), at(-3_400));

        found(Grade.WARNING, -3_390);

        assertThat(service.foundMeanwhile()).containsExactly(Rule.INLET);
    }
}
