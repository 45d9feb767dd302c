package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
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

    @Test
    void route_of_some_machines_hears_of_no_other() {
        Dispatch some =
                new Dispatch(
                        Changes.site(
                                PressureUnit.PSI,
                                new RouteSettings.Log("one", only("jet-1")),
                                new RouteSettings.Log("two", only("jet-2"))));

        List<Addressed> owed = some.owed("jet-1", raised(Grade.CRITICAL), NOBODY);

        assertThat(owed).extracting(Addressed::route).containsExactly("one");
    }

    @Test
    void what_one_route_gives_up_is_told_to_the_others_that_carry_it() {
        List<Owed> lost =
                List.of(
                        new Owed(4, "hall", Changes.message(4)),
                        new Owed(5, "hall", Changes.message(5)));

        List<Addressed> owed = dispatch.undelivered(lost, "broker gone\u001b[2J", Changes.RAISED);

        assertThat(owed).extracting(Addressed::route).containsExactly("all");
        Message notice = owed.get(0).message();
        assertThat(notice.id()).isEqualTo("jet-1.ratio.20260105T060101Z/4/undelivered/hall");
        assertThat(notice.kind()).isEqualTo(Message.Kind.NOTICE);
        assertThat(notice.subject()).isEqualTo("NOT DELIVERED jet-1: 2 messages on route hall");
        assertThat(notice.text())
                .isEqualTo(
                        """
                        Not delivered: 2 messages on route hall, given up.
                        Boatyard, jet-1.
                        Why: broker gone\\u{1b}[2J
                        Whoever reads only that route has not been told of:
                        - 2026-01-05 07:01:01 +01:00: subject 4
                        - 2026-01-05 07:01:01 +01:00: subject 5
                        Check first: tell those people, then the route's settings and its receiver.
                        Message jet-1.ratio.20260105T060101Z/4/undelivered/hall.""");
    }

    @Test
    void notice_that_is_given_up_causes_no_further_notice() {
        Message notice =
                dispatch.undelivered(
                                List.of(new Owed(4, "hall", Changes.message(4))),
                                "gone",
                                Changes.RAISED)
                        .get(0)
                        .message();

        List<Addressed> owed =
                dispatch.undelivered(
                        List.of(new Owed(9, "all", notice)), "gone too", Changes.RAISED);

        assertThat(owed).isEmpty();
    }

    @Test
    void notice_keeps_to_its_schema() throws Exception {
        Message notice =
                dispatch.undelivered(
                                List.of(new Owed(4, "hall", Changes.message(4))),
                                "gone",
                                Changes.RAISED)
                        .get(0)
                        .message();
        ObjectMapper mapper = new ObjectMapper();

        List<String> problems =
                SchemaCheck.problems(
                        mapper.readTree(Path.of("config/notice-message.schema.json").toFile()),
                        mapper.readTree(notice.json()));

        assertThat(problems).isEmpty();
    }

    @Test
    void notices_of_a_flood_and_of_the_day_keep_to_the_schema() throws Exception {
        Site site = Changes.site(PressureUnit.PSI);
        Folded folded = new Folded("jet-1/more/x", "hall", "jet-1", List.of(Changes.message(4)));
        MachineDay day = new MachineDay("jet-1", 3, 0, OptionalLong.empty());
        ObjectMapper mapper = new ObjectMapper();
        JsonNode schema = mapper.readTree(Path.of("config/notice-message.schema.json").toFile());

        Message more = new FloodWording(site).message(folded, Changes.RAISED);
        Message daily =
                new DailyReport(site)
                        .message("hall", LocalDate.of(2026, 1, 5), List.of(day), Changes.RAISED);

        assertThat(SchemaCheck.problems(schema, mapper.readTree(more.json()))).isEmpty();
        assertThat(SchemaCheck.problems(schema, mapper.readTree(daily.json()))).isEmpty();
    }

    private static RouteScope only(String machine) {
        return new RouteScope(Grade.ADVISORY, List.of(machine), Duration.ofHours(72));
    }

    private static AlarmChange raised(Grade grade) {
        return Changes.raised(Changes.weakBoost(grade, ""));
    }

    private List<String> routes(AlarmChange change, Dispatch.Told told) {
        return dispatch.owed("jet-1", change, told).stream().map(Addressed::route).toList();
    }
}
