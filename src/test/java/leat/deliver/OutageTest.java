package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.config.MachineSettings;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.StoreSettings;
import leat.measure.Figure;
import leat.measure.absence.Absence;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.store.Message;
import leat.words.Language;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What hangs on one cable is one call, and one piece of news when it is read again. */
class OutageTest {

    private static final long SECOND = 1_000_000;
    private static final long START = Changes.RAISED;

    private final Map<String, Integer> revisions = new HashMap<>();
    private final List<Notification> owed = new ArrayList<>();
    private Site site = site(Language.ENGLISH, WiredMachine.boatyard());
    private Annunciator annunciator = new Annunciator(site);
    private long number;

    private static Site site(Language language, List<MachineSettings> machines) {
        return new Site(
                "Boatyard",
                ZoneId.of("Europe/Berlin"),
                language,
                PressureUnit.PSI,
                new StoreSettings(Path.of("."), Duration.ofDays(90)),
                List.of(),
                machines,
                List.of(
                        new RouteSettings.Log("people", people(List.of(), Optional.empty())),
                        new RouteSettings.Log("one", people(List.of("jet-2"), Optional.empty())),
                        new RouteSettings.Log(
                                "boss", people(List.of(), Optional.of(Duration.ofMinutes(30)))),
                        new RouteSettings.Log("states", RouteScope.from(Grade.ADVISORY))),
                Optional.empty(),
                Optional.empty(),
                "0".repeat(64),
                "");
    }

    private static RouteScope people(List<String> machines, Optional<Duration> escalateAfter) {
        return new RouteScope(
                Grade.ADVISORY,
                machines,
                Duration.ofHours(72),
                new RoutePolicy(
                        Optional.empty(),
                        escalateAfter,
                        Optional.of(Duration.ofMinutes(60)),
                        OptionalInt.of(10),
                        Optional.empty()));
    }

    private void change(
            double second,
            String machine,
            Rule rule,
            Channel channel,
            AlarmEvent event,
            AlarmState to) {
        long at = START + Math.round(second * SECOND);
        String id = machine + "." + rule.key() + "." + channel.key();
        boolean silent = rule == Rule.SIGNAL_MISSING;
        Finding finding =
                new Finding(
                        rule,
                        channel,
                        Grade.WARNING,
                        at - 5 * SECOND,
                        at,
                        silent ? Finding.Quantity.TIME_SECONDS : Finding.Quantity.PRESSURE_PSI,
                        silent ? 5.2 : 71.3,
                        silent ? 5 : 80,
                        silent ? Finding.Sense.AT_MOST : Finding.Sense.AT_LEAST,
                        Figure.absent(Absence.NOT_BOTH_GAUGES),
                        Figure.absent(Absence.NOT_BOTH_GAUGES),
                        List.of());
        AlarmChange change =
                new AlarmChange(
                        id,
                        revisions.merge(id, 1, Integer::sum),
                        event,
                        AlarmState.NORMAL,
                        to,
                        at,
                        at,
                        finding,
                        "",
                        new AlarmNotes(to, 1, false, OptionalLong.empty(), "", Optional.empty()));
        number++;
        owed.addAll(
                Changes.owed(
                        annunciator,
                        new Changed(machine, change, Optional.empty(), OptionalLong.of(number))));
    }

    private void silent(double second, String machine, Channel... channels) {
        Stream.of(channels)
                .forEach(
                        channel ->
                                change(
                                        second,
                                        machine,
                                        Rule.SIGNAL_MISSING,
                                        channel,
                                        AlarmEvent.RAISED,
                                        AlarmState.UNACKNOWLEDGED));
    }

    private void back(double second, String machine, Channel... channels) {
        Stream.of(channels)
                .forEach(
                        channel ->
                                change(
                                        second,
                                        machine,
                                        Rule.SIGNAL_MISSING,
                                        channel,
                                        AlarmEvent.RETURNED,
                                        AlarmState.RETURNED_UNACKNOWLEDGED));
    }

    private void pass(int fromSecond, int toSecond) {
        IntStream.rangeClosed(fromSecond, toSecond)
                .forEach(
                        second ->
                                owed.addAll(
                                        Changes.owed(
                                                annunciator,
                                                new Occasion.Passed(START + second * SECOND))));
    }

    private List<Message> told(String route) {
        return owed.stream()
                .filter(each -> each.route().equals(route) && each.foldedInto().isEmpty())
                .map(new Wording(site)::message)
                .toList();
    }

    private static final Channel[] ALL = {Channel.INLET, Channel.BOOSTED, Channel.RUNNING};

    @Test
    void server_away_for_two_machines_is_one_call_and_one_return() {
        silent(0, "jet-1", ALL);
        silent(0.1, "jet-2", ALL);
        pass(1, 9);
        back(9, "jet-2", ALL);
        back(9.1, "jet-1", ALL);
        pass(10, 200);

        assertThat(told("people"))
                .extracting(Message::subject)
                .containsExactly(
                        "WARNING jet-1, jet-2: nothing comes from plc", "read again jet-1, jet-2");
        assertThat(told("states")).hasSize(12);
    }

    @Test
    void call_says_which_machines_are_blind_since_when_and_by_which_number() {
        silent(0, "jet-1", ALL);
        silent(0, "jet-2", Channel.BOOSTED);
        pass(1, 6);

        assertThat(told("people").get(0).text())
                .isEqualTo(
                        """
                        WARNING jet-1, jet-2: 4 channels of plc are silent since 07:00. Check power, cable, switch. leat ack 1
                        Boatyard: leat is blind there, and raises no alarm of these pressures meanwhile.
                        jet-1: inlet, boosted, running.
                        jet-2: boosted.
                        Since: 2026-01-05 07:00:56 +01:00.
                        Check first:
                        1. Check that the device has power and its network cable is in.
                        2. Check the address or topic against the settings.
                        3. Until it speaks, read the dial gauges: leat is blind here.
                        Somebody looks after it: leat ack 1. That is enough for all of them.
                        Caution: Before any work: site's procedure, local codes, qualified people. leat is no safety device.
                        Alarm 1, message jet-1.signal-missing.inlet/1.""");
    }

    @Test
    void switch_of_four_machines_away_is_one_message() {
        site =
                site(
                        Language.ENGLISH,
                        IntStream.rangeClosed(1, 4)
                                .mapToObj(n -> WiredMachine.of("jet-" + n, "hall-" + n))
                                .toList());
        annunciator = new Annunciator(site);
        for (int n = 1; n <= 4; n++) {
            silent(n, "jet-" + n, ALL);
        }
        pass(2, 60);
        for (int n = 1; n <= 4; n++) {
            back(60 + n, "jet-" + n, ALL);
        }
        pass(65, 200);

        assertThat(told("people"))
                .extracting(Message::subject)
                .containsExactly(
                        "WARNING jet-1, jet-2, jet-3, jet-4: nothing comes from hall-1, hall-2,"
                                + " hall-3, hall-4",
                        "read again jet-1, jet-2, jet-3, jet-4");
        assertThat(told("one"))
                .extracting(Message::subject)
                .containsExactly("WARNING jet-2: nothing comes from hall-2", "read again jet-2");
    }

    @Test
    void pressure_that_is_low_meanwhile_is_told_first_and_by_its_title() {
        silent(0, "jet-1", ALL);
        change(
                1,
                "jet-2",
                Rule.LEVEL_LOW,
                Channel.BOOSTED,
                AlarmEvent.RAISED,
                AlarmState.UNACKNOWLEDGED);
        pass(1, 6);

        assertThat(told("people"))
                .extracting(Message::subject)
                .containsExactly(
                        "WARNING jet-2: boosted pressure low, 71.3 psi",
                        "WARNING jet-1: 3 channels of plc are silent");
    }

    @Test
    void one_silent_channel_is_told_as_before_a_moment_later() {
        silent(0, "jet-1", Channel.INLET);
        pass(1, 4);
        assertThat(told("people")).isEmpty();

        pass(5, 6);
        back(20, "jet-1", Channel.INLET);

        assertThat(told("people"))
                .extracting(Message::subject)
                .containsExactly(
                        "WARNING jet-1: inlet channel silent, 5.2 s",
                        "back to normal jet-1: inlet channel silent");
    }

    @Test
    void further_channel_of_a_connection_that_is_known_to_be_away_calls_nobody() {
        silent(0, "jet-1", ALL);
        pass(1, 50);
        silent(50, "jet-2", ALL);
        pass(51, 60);
        back(60, "jet-1", ALL);
        back(60, "jet-2", ALL);
        pass(60, 62);

        assertThat(told("people"))
                .extracting(Message::subject)
                .containsExactly(
                        "WARNING jet-1: 3 channels of plc are silent", "read again jet-1, jet-2");
    }

    @Test
    void part_that_is_read_again_is_told_after_a_minute_and_the_rest_when_it_comes() {
        silent(0, "jet-1", ALL);
        silent(0, "jet-2", ALL);
        pass(1, 100);
        back(100, "jet-1", ALL);
        pass(101, 159);
        assertThat(told("people")).hasSize(1);

        pass(160, 161);
        back(500, "jet-2", ALL);
        pass(501, 502);

        assertThat(told("people"))
                .extracting(Message::subject)
                .containsExactly(
                        "WARNING jet-1, jet-2: nothing comes from plc",
                        "in part read again jet-1",
                        "read again jet-2");
    }

    @Test
    void channel_that_was_read_for_a_while_is_named_though_it_is_silent_again() {
        silent(0, "jet-1", ALL);
        silent(0, "jet-2", ALL);
        pass(1, 100);
        back(100, "jet-1", Channel.INLET);
        silent(110, "jet-1", Channel.INLET);
        pass(111, 200);

        Message news = told("people").get(1);
        assertThat(told("people")).hasSize(2);
        assertThat(news.subject()).isEqualTo("in part read again jet-1");
        assertThat(news.text()).contains("jet-1: inlet, silent from ", "Still silent:\njet-1: ");
    }

    @Test
    void one_acknowledgement_is_enough_and_told_once() {
        silent(0, "jet-1", ALL);
        pass(1, 10);
        for (Channel channel : ALL) {
            change(
                    20,
                    "jet-1",
                    Rule.SIGNAL_MISSING,
                    channel,
                    AlarmEvent.ACKNOWLEDGED,
                    AlarmState.ACKNOWLEDGED);
        }
        pass(21, 4_000);

        assertThat(told("people")).hasSize(2);
        assertThat(told("boss")).isEmpty();
    }

    @Test
    void nobody_answers_is_one_call_too_whoever_gets_it() {
        silent(0, "jet-1", ALL);
        silent(0, "jet-2", ALL);
        pass(1, 3_700);
        back(3_700, "jet-1", ALL);
        back(3_700, "jet-2", ALL);
        pass(3_701, 3_702);

        assertThat(told("boss"))
                .extracting(Message::subject)
                .containsExactly(
                        "WARNING (nobody answers) jet-1, jet-2: nothing comes from plc",
                        "read again jet-1, jet-2");
        assertThat(told("people"))
                .extracting(Message::subject)
                .containsExactly(
                        "WARNING jet-1, jet-2: nothing comes from plc",
                        "WARNING (still not acknowledged) jet-1, jet-2: nothing comes from plc",
                        "read again jet-1, jet-2");
    }

    @Test
    void silence_that_is_over_before_it_is_told_is_told_to_nobody() {
        silent(0, "jet-1", ALL);
        pass(1, 3);
        back(3, "jet-1", ALL);
        pass(4, 100);

        assertThat(told("people")).isEmpty();
        assertThat(told("states")).hasSize(6);
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void first_line_is_short_with_many_long_names(Language language) {
        site =
                site(
                        language,
                        IntStream.rangeClosed(1, 30)
                                .mapToObj(
                                        n ->
                                                WiredMachine.of(
                                                        "waterjet-with-a-long-name-" + n,
                                                        "connection-with-a-long-name-" + n))
                                .toList());
        annunciator = new Annunciator(site);
        site.machines().forEach(machine -> silent(0, machine.name(), ALL));
        pass(1, 6);

        Message call = told("people").get(0);
        assertThat(call.text().lines().findFirst().orElseThrow())
                .hasSizeLessThanOrEqualTo(160)
                .endsWith("leat ack 1");
        assertThat(call.text().lines()).hasSizeLessThan(25);
    }

    @Test
    void both_keep_to_their_schemas() throws Exception {
        silent(0, "jet-1", ALL);
        pass(1, 6);
        back(9, "jet-1", ALL);
        pass(10, 11);
        ObjectMapper mapper = new ObjectMapper();

        List<Message> told = told("people");
        assertThat(told).hasSize(2);
        for (int i = 0; i < told.size(); i++) {
            String schema = i == 0 ? "alarm-message" : "notice-message";
            assertThat(
                            SchemaCheck.problems(
                                    mapper.readTree(
                                            Path.of("config/" + schema + ".schema.json").toFile()),
                                    mapper.readTree(told.get(i).json())))
                    .isEmpty();
        }
    }
}
