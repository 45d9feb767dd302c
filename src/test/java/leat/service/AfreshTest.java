package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class AfreshTest {

    /**
     * Every way in which an alarm can stand: in a state of its own, or held with one underneath.
     */
    static List<AlarmChange> standing() {
        List<AlarmChange> all = new ArrayList<>();
        for (AlarmState own : EnumSet.range(AlarmState.NORMAL, AlarmState.LATCHED_ACKNOWLEDGED)) {
            all.add(last(own, own));
            for (AlarmState held : EnumSet.range(AlarmState.SHELVED, AlarmState.OUT_OF_SERVICE)) {
                all.add(last(held, own));
            }
        }
        return all.stream().filter(c -> c.to() != AlarmState.NORMAL).toList();
    }

    private static AlarmChange last(AlarmState shown, AlarmState own) {
        Finding finding =
                new Finding(
                        Rule.RATIO,
                        Channel.BOOSTED,
                        Grade.CRITICAL,
                        0,
                        0,
                        Finding.Quantity.RATIO,
                        1,
                        1.2,
                        Finding.Sense.AT_LEAST,
                        Figure.of(40),
                        Figure.of(41),
                        List.of());
        return new AlarmChange(
                "jet-1.ratio.20260105T060000Z-1",
                5,
                AlarmEvent.RAISED,
                AlarmState.NORMAL,
                shown,
                0,
                0,
                finding,
                "",
                new AlarmNotes(own, 3, false, OptionalLong.empty(), "", Optional.empty()));
    }

    @ParameterizedTest
    @MethodSource("standing")
    void whatever_stood_is_brought_back_to_normal_step_by_step_and_nobody_is_called(
            AlarmChange last) {
        List<AlarmChange> closing = Afresh.closing(last, 77);

        assertThat(closing).isNotEmpty().noneMatch(AlarmChange::isCall);
        assertThat(closing.get(0).from()).isEqualTo(last.to());
        assertThat(closing.get(0).revision()).isEqualTo(6);
        AlarmChange end = closing.get(closing.size() - 1);
        assertThat(end.to()).isEqualTo(AlarmState.NORMAL);
        assertThat(end.notes().own()).isEqualTo(AlarmState.NORMAL);
        assertThat(end.revision()).isEqualTo(5 + closing.size());
        assertThat(closing).allMatch(c -> c.to().isHeld() || c.to() == c.notes().own());
    }
}
