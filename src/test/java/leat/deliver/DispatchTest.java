package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.rule.Grade;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;

class DispatchTest {

    private static final Dispatch.Told NOBODY = (route, alarm) -> false;

    private final Dispatch dispatch =
            new Dispatch(
                    Changes.site(
                            PressureUnit.PSI,
                            new RouteSettings.Log("all", RouteScope.from(Grade.ADVISORY)),
                            new RouteSettings.Mqtt(
                                    "hall", RouteScope.from(Grade.WARNING), "hall", "leat"),
                            new RouteSettings.Log("grave", RouteScope.from(Grade.CRITICAL))));

    @Test
    void alarm_goes_to_the_routes_whose_grade_it_reaches() {
        assertThat(routes(raised(Grade.ADVISORY), NOBODY)).containsExactly("all");
        assertThat(routes(raised(Grade.WARNING), NOBODY)).containsExactly("all", "hall");
        assertThat(routes(raised(Grade.CRITICAL), NOBODY)).containsExactly("all", "hall", "grave");
    }

    @Test
    void who_was_told_that_it_came_is_told_that_it_eased_and_went() {
        Dispatch.Told grave =
                (route, alarm) ->
                        route.equals("grave") && alarm.equals("jet-1.ratio.20260105T060101Z");
        AlarmChange eased =
                Changes.change(
                        3,
                        AlarmEvent.EASED,
                        AlarmState.UNACKNOWLEDGED,
                        Changes.weakBoost(Grade.ADVISORY, ""),
                        "");
        AlarmChange gone =
                Changes.change(
                        4,
                        AlarmEvent.RETURNED,
                        AlarmState.NORMAL,
                        Changes.weakBoost(Grade.ADVISORY, ""),
                        "");

        assertThat(routes(eased, grave)).containsExactly("all", "grave");
        assertThat(routes(gone, grave)).containsExactly("all", "grave");
        assertThat(routes(gone, NOBODY)).containsExactly("all");
    }

    @Test
    void same_change_gives_the_same_messages_with_the_same_ids() {
        AlarmChange change = raised(Grade.CRITICAL);

        List<Addressed> first = dispatch.owed("jet-1", change, NOBODY);
        List<Addressed> again = dispatch.owed("jet-1", change, NOBODY);

        assertThat(again).isEqualTo(first);
        assertThat(first)
                .extracting(a -> a.message().id())
                .containsOnly("jet-1.ratio.20260105T060101Z/1");
    }

    private static AlarmChange raised(Grade grade) {
        return Changes.raised(Changes.weakBoost(grade, ""));
    }

    private List<String> routes(AlarmChange change, Dispatch.Told told) {
        return dispatch.owed("jet-1", change, told).stream().map(Addressed::route).toList();
    }
}
