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
import java.util.function.Function;
import java.util.stream.IntStream;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PressureUnit;
import leat.store.Message;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DigestWordingTest {

    private static final LocalDate DATE = LocalDate.of(2026, 1, 6);
    private static final String ID = "digest/2026-01-06/hall";

    private final Site site = Changes.site(PressureUnit.PSI);

    @ParameterizedTest(name = "{0}, {1} underneath, {2}: {3}")
    @CsvSource({
        "UNACKNOWLEDGED, UNACKNOWLEDGED, ADVISORY, stands",
        "ACKNOWLEDGED, ACKNOWLEDGED, ADVISORY, stands",
        "UNACKNOWLEDGED, UNACKNOWLEDGED, WARNING, graver",
        "ACKNOWLEDGED, ACKNOWLEDGED, CRITICAL, graver",
        "RETURNED_UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED, ADVISORY, gone-unacknowledged",
        "LATCHED_UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, ADVISORY, latched",
        "SHELVED, ACKNOWLEDGED, ADVISORY, aside",
        "SUPPRESSED, UNACKNOWLEDGED, WARNING, aside",
        "OUT_OF_SERVICE, NORMAL, ADVISORY, gone",
        "SHELVED, RETURNED_UNACKNOWLEDGED, ADVISORY, gone-unacknowledged"
    })
    void alarm_is_told_by_what_has_become_of_it(
            AlarmState shown, AlarmState own, Grade grade, String fate) {
        AlarmChange latest = change(shown, own, grade);

        Digest digest = digest(List.of(line("jet-1", "a")), id -> Optional.of(latest), 0);

        assertThat(digest.entries().get(0).fate().key()).isEqualTo(fate);
    }

    @Test
    void alarm_that_nobody_knows_any_more_is_over() {
        Message message = message(digest(List.of(line("jet-1", "a")), id -> Optional.empty(), 0));

        assertThat(message.subject())
                .isEqualTo("no advisory stands, 1 has gone: Boatyard, 2026-01-06");
        assertThat(message.text())
                .isEqualTo(
                        """
                        Boatyard: no advisory stands, 1 has gone.
                        Has gone meanwhile:
                        - 2026-01-05 07:01:01 +01:00: ADVISORY jet-1: weak boost, 1.62 times
                        leat alarms shows what stands and its NUMBER; leat ack NUMBER says that you have seen it.
                        Caution: Before any work: site's procedure, local codes, qualified people. leat is no safety device.
                        Message digest/2026-01-06/hall.""");
    }

    @Test
    void many_alarms_make_no_endless_message() {
        List<Changed> lines =
                IntStream.rangeClosed(1, 400).mapToObj(n -> line("jet-" + n, "a" + n)).toList();
        AlarmChange stands =
                change(AlarmState.UNACKNOWLEDGED, AlarmState.UNACKNOWLEDGED, Grade.ADVISORY);

        Message message = message(digest(lines, id -> Optional.of(stands), 7));

        assertThat(message.subject()).startsWith("407 advisories stand: ");
        assertThat(message.text())
                .contains(
                        "jet-30: weak boost, 1.62 times\n- and 370 more alarms.\n"
                                + "- and 7 more, told earlier.\n")
                .doesNotContain("jet-31")
                .containsOnlyOnce("Caution: ");
        assertThat(message.text().split("Check first:", -1)).hasSize(10 + 1);
        assertThat(message.json()).contains("\"a400/1\"");
    }

    @Test
    void digest_keeps_to_the_schema_of_notices() throws Exception {
        ObjectMapper mapper = new ObjectMapper();
        JsonNode schema = mapper.readTree(Path.of("config/notice-message.schema.json").toFile());

        Message message = message(digest(List.of(line("jet-1", "a")), id -> Optional.empty(), 0));

        assertThat(SchemaCheck.problems(schema, mapper.readTree(message.json()))).isEmpty();
    }

    @Test
    void digest_that_is_given_up_is_told_to_the_others_whatever_their_machines() {
        RouteScope other = new RouteScope(Grade.ADVISORY, List.of("jet-1"), Duration.ofHours(72));
        Annunciator annunciator =
                new Annunciator(
                        Changes.site(
                                PressureUnit.PSI,
                                new RouteSettings.Log("hall", RouteScope.from(Grade.ADVISORY)),
                                new RouteSettings.Log("one", other),
                                new RouteSettings.Log("grave", RouteScope.from(Grade.WARNING))));
        Message digest =
                message(
                        digest(
                                List.of(line("jet-1", "a"), line("jet-2", "b")),
                                id -> Optional.empty(),
                                0));

        List<Notification> owed =
                Changes.owed(
                        annunciator, new Occasion.GivenUp(List.of(digest), "gone", Changes.RAISED));

        assertThat(digest.machine()).isEqualTo("all");
        assertThat(owed).extracting(Notification::route).containsExactly("one");
        assertThat(new Wording(site).message(owed.get(0)).text())
                .contains("no advisory stands, 2 have gone: ");
    }

    private Message message(Digest digest) {
        return Changes.said(site, ID, digest);
    }

    private static Digest digest(
            List<Changed> changes, Function<String, Optional<AlarmChange>> latest, long before) {
        return Digest.of(DATE, changes, latest, before);
    }

    private static Changed line(String machine, String alarm) {
        return new Changed(
                machine,
                new AlarmChange(
                        alarm,
                        1,
                        AlarmEvent.RAISED,
                        AlarmState.NORMAL,
                        AlarmState.UNACKNOWLEDGED,
                        Changes.RAISED,
                        Changes.RAISED,
                        Changes.weakBoost(Grade.ADVISORY, ""),
                        ""));
    }

    private static AlarmChange change(AlarmState shown, AlarmState own, Grade grade) {
        return new AlarmChange(
                "a",
                2,
                AlarmEvent.RAISED,
                AlarmState.NORMAL,
                shown,
                Changes.RAISED,
                Changes.RAISED,
                Changes.weakBoost(grade, ""),
                "",
                new AlarmNotes(own, 1, false, OptionalLong.empty(), "", Optional.empty()));
    }
}
