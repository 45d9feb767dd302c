package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PressureUnit;
import leat.store.Message;
import org.junit.jupiter.api.Test;

class AnnunciatorTest {

    private static final AlarmState ACTIVE = AlarmState.UNACKNOWLEDGED;

    private final Site site =
            Changes.site(
                    PressureUnit.PSI,
                    new RouteSettings.Log("all", RouteScope.from(Grade.ADVISORY)),
                    new RouteSettings.Mqtt("hall", RouteScope.from(Grade.WARNING), "hall", "leat"),
                    new RouteSettings.Log("grave", RouteScope.from(Grade.CRITICAL)));

    @Test
    void alarm_goes_to_the_routes_whose_grade_it_reaches() {
        assertThat(routes(raised(Grade.ADVISORY))).containsExactly("all");
        assertThat(routes(raised(Grade.WARNING))).containsExactly("all", "hall");
        assertThat(routes(raised(Grade.CRITICAL))).containsExactly("all", "hall", "grave");
    }

    @Test
    void who_was_told_that_it_came_is_told_that_it_eased_and_went() {
        AlarmChange eased = later(3, AlarmEvent.EASED, ACTIVE, Grade.ADVISORY);
        AlarmChange gone = later(4, AlarmEvent.RETURNED, AlarmState.NORMAL, Grade.ADVISORY);
        AlarmChange advisory = raised(Grade.ADVISORY);
        AlarmChange critical = raised(Grade.CRITICAL);

        assertThat(routes(critical, eased)).containsExactly("all", "hall", "grave");
        assertThat(routes(critical, eased, gone)).containsExactly("all", "hall", "grave");
        assertThat(routes(advisory, gone)).containsExactly("all");
    }

    @Test
    void same_change_gives_the_same_messages_with_the_same_ids() {
        Changed change = new Changed("jet-1", raised(Grade.CRITICAL));

        List<Notification> first = Changes.owed(new Annunciator(site), change);
        List<Notification> again = Changes.owed(new Annunciator(site), change);

        assertThat(again).isEqualTo(first);
        assertThat(first)
                .extracting(Notification::id)
                .containsOnly("jet-1.ratio.20260105T060101Z/1");
    }

    @Test
    void route_of_some_machines_hears_of_no_other() {
        Annunciator some =
                new Annunciator(
                        Changes.site(
                                PressureUnit.PSI,
                                new RouteSettings.Log("one", only("jet-1")),
                                new RouteSettings.Log("two", only("jet-2"))));

        List<Notification> owed = Changes.owed(some, new Changed("jet-1", raised(Grade.CRITICAL)));

        assertThat(owed).extracting(Notification::route).containsExactly("one");
    }

    @Test
    void what_one_route_gives_up_is_told_to_the_others_that_carry_it() {
        List<Message> lost = List.of(Changes.message(4), Changes.message(5));

        List<Message> owed = notices(lost, "broker gone\u001b[2J");

        assertThat(owed).extracting(Message::route).containsExactly("all");
        Message notice = owed.get(0);
        assertThat(notice.id()).isEqualTo("jet-1.ratio.20260105T060101Z/4/undelivered/hall");
        assertThat(notice.kind()).isEqualTo(Message.Purpose.NOTICE);
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
        Message notice = notices(List.of(Changes.message(4)), "gone").get(0);

        assertThat(notices(List.of(notice), "gone too")).isEmpty();
    }

    @Test
    void notice_keeps_to_its_schema() throws Exception {
        Message notice = notices(List.of(Changes.message(4)), "gone").get(0);
        ObjectMapper mapper = new ObjectMapper();

        List<String> problems =
                SchemaCheck.problems(
                        mapper.readTree(Path.of("config/notice-message.schema.json").toFile()),
                        mapper.readTree(notice.json()));

        assertThat(problems).isEmpty();
    }

    @Test
    void notices_of_a_flood_and_of_the_day_keep_to_the_schema() throws Exception {
        More folded = new More("jet-1", List.of(folded()));
        MachineDay day = new MachineDay("jet-1", 3, 0, OptionalLong.empty());
        ObjectMapper mapper = new ObjectMapper();
        JsonNode schema = mapper.readTree(Path.of("config/notice-message.schema.json").toFile());

        Message more = Changes.said(site, "jet-1/more/x", folded);
        Message daily =
                Changes.said(
                        site,
                        "all-is-well/2026-01-05",
                        new Day(LocalDate.of(2026, 1, 5), List.of(day)));

        assertThat(SchemaCheck.problems(schema, mapper.readTree(more.json()))).isEmpty();
        assertThat(SchemaCheck.problems(schema, mapper.readTree(daily.json()))).isEmpty();
    }

    private static More.Part folded() {
        return new More.Part(
                "x/1",
                Grade.WARNING,
                true,
                Optional.of(Changes.weakBoost(Grade.WARNING, "")),
                OptionalLong.of(3));
    }

    private static RouteScope only(String machine) {
        return new RouteScope(Grade.ADVISORY, List.of(machine), Duration.ofHours(72));
    }

    private static AlarmChange raised(Grade grade) {
        return Changes.raised(Changes.weakBoost(grade, ""));
    }

    private static AlarmChange later(int revision, AlarmEvent event, AlarmState to, Grade grade) {
        return Changes.change(revision, event, to, Changes.weakBoost(grade, ""), "");
    }

    /** Who is told of the last of these changes. */
    private List<String> routes(AlarmChange... changes) {
        Annunciator annunciator = new Annunciator(site);
        List<Notification> owed = List.of();
        for (AlarmChange change : changes) {
            owed = Changes.owed(annunciator, new Changed("jet-1", change));
        }
        return owed.stream().map(Notification::route).toList();
    }

    private List<Message> notices(List<Message> lost, String reason) {
        return Changes.owed(
                        new Annunciator(site), new Occasion.GivenUp(lost, reason, Changes.RAISED))
                .stream()
                .map(new Wording(site)::message)
                .toList();
    }
}
