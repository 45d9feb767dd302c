package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.diagnose.Cause;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;

class CauseFinderTest {

    private static final long AT = 1_767_592_800_000_000L;

    private final CauseFinder finder =
            new CauseFinder(Optional::empty, Optional::empty, Optional::empty);

    @Test
    void channel_from_which_nothing_comes_is_a_matter_of_the_network_and_no_cause_is_named() {
        assertThat(finder.explained(raised(Rule.SIGNAL_MISSING)).why()).isEmpty();
    }

    @Test
    void bad_reading_of_a_loop_has_a_cause() {
        assertThat(finder.explained(raised(Rule.SIGNAL_BAD)).why().orElseThrow().first().cause())
                .isIn(Cause.OPEN_LOOP, Cause.LOOSE_LOOP);
    }

    private static AlarmChange raised(Rule rule) {
        Finding finding =
                new Finding(
                        rule,
                        Channel.BOOSTED,
                        Grade.WARNING,
                        AT - 5_000_000,
                        AT,
                        Finding.Quantity.TIME_SECONDS,
                        5.2,
                        5,
                        Finding.Sense.AT_MOST,
                        Figure.of(42),
                        Figure.of(0),
                        List.of());
        return new AlarmChange(
                "jet-1." + rule.key() + ".x",
                1,
                AlarmEvent.RAISED,
                AlarmState.NORMAL,
                AlarmState.UNACKNOWLEDGED,
                AT,
                AT,
                finding,
                "");
    }
}
