package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.alarm.Reason;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PressureUnit;
import leat.store.Message;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What routes are told of alarms that are shelved, suppressed or out of service. */
class HeldAlarmsTest {

    private static final String ALARM = "jet-1.ratio.20260105T060101Z-1";

    /** Who has been told that the alarm came. */
    private enum Told {
        NOBODY,
        EVERYBODY
    }

    private final Site site =
            Changes.site(
                    PressureUnit.PSI,
                    new RouteSettings.Log("all", RouteScope.from(Grade.ADVISORY)));

    private static AlarmChange change(
            AlarmEvent event, AlarmState from, AlarmState to, AlarmState own, String why) {
        return change(event, from, to, own, why, Optional.empty());
    }

    private static AlarmChange change(
            AlarmEvent event,
            AlarmState from,
            AlarmState to,
            AlarmState own,
            String why,
            Optional<Reason> reason) {
        OptionalLong until =
                to == AlarmState.SHELVED
                        ? OptionalLong.of(Changes.RAISED + 3_600_000_000L)
                        : OptionalLong.empty();
        return new AlarmChange(
                ALARM,
                3,
                event,
                from,
                to,
                Changes.RAISED,
                Changes.RAISED,
                Changes.weakBoost(Grade.WARNING, ""),
                "Kim",
                new AlarmNotes(own, 4, false, until, why, reason));
    }

    private List<Message> told(AlarmChange change, Told told) {
        Annunciator annunciator = new Annunciator(site);
        if (told == Told.EVERYBODY) {
            AlarmState active = AlarmState.UNACKNOWLEDGED;
            AlarmChange raised = change(AlarmEvent.RAISED, AlarmState.NORMAL, active, active, "");
            Changes.owed(annunciator, new Changed("jet-1", raised));
        }
        return Changes.owed(annunciator, new Changed("jet-1", change)).stream()
                .map(new Wording(site)::message)
                .toList();
    }

    @ParameterizedTest
    @EnumSource(
            value = AlarmState.class,
            names = {"SHELVED", "SUPPRESSED", "OUT_OF_SERVICE"})
    void an_alarm_that_is_held_back_owes_nothing_whatever_its_condition_does(AlarmState held) {
        for (AlarmEvent event :
                List.of(AlarmEvent.RAISED, AlarmEvent.WORSENED, AlarmEvent.RETURNED)) {
            AlarmChange change = change(event, held, held, AlarmState.ACKNOWLEDGED, "");

            assertThat(told(change, Told.EVERYBODY)).as("%s", event).isEmpty();
        }
    }

    @Test
    void that_it_was_shelved_hears_who_was_told_of_it_and_nobody_else() {
        AlarmChange shelved =
                change(
                        AlarmEvent.SHELVED,
                        AlarmState.UNACKNOWLEDGED,
                        AlarmState.SHELVED,
                        AlarmState.UNACKNOWLEDGED,
                        "new gauge\non order");

        assertThat(told(shelved, Told.NOBODY)).isEmpty();
        assertThat(told(shelved, Told.EVERYBODY).get(0).json())
                .contains("\"state\":\"shelved\"", "\"own_state\":\"unacknowledged\"")
                .contains("\"shelved_until\":\"2026-01-05T07:01:01.250Z\"");
        assertThat(told(shelved, Told.EVERYBODY).get(0).text())
                .startsWith(
                        """
                        Shelved until 2026-01-05 08:01:01 +01:00: new gauge\\non order, said by Kim.
                        Boatyard, jet-1: weak boost, 2026-01-05 07:01:01 +01:00.
                        It is WARNING: boosted over inlet pressure 1.62 times, should be at least 2.00 times.
                        Nobody is called for it meanwhile, unless it gets graver.
                        """);
    }

    @Test
    void one_that_is_active_when_its_hold_ends_is_a_call_like_any_other() {
        AlarmChange back =
                change(
                        AlarmEvent.RELEASED,
                        AlarmState.SUPPRESSED,
                        AlarmState.UNACKNOWLEDGED,
                        AlarmState.UNACKNOWLEDGED,
                        "");

        Message message = told(back, Told.NOBODY).get(0);

        assertThat(message.subject()).isEqualTo("WARNING (still) jet-1: weak boost, 1.62 times");
        assertThat(message.text())
                .startsWith(
                        "WARNING jet-1: weak boost, 1.62 times (at least 2.00 times) since 07:00.\n"
                                + "Boatyard, jet-1: plan it this shift.")
                .contains("It was held back while the machine was in service and is still active")
                .contains("Check first:")
                .contains("Caution:");
    }

    @Test
    void one_that_has_gone_when_its_hold_ends_is_news_for_who_was_told_of_it() {
        AlarmChange over =
                change(
                        AlarmEvent.UNSHELVED,
                        AlarmState.SHELVED,
                        AlarmState.NORMAL,
                        AlarmState.NORMAL,
                        "",
                        Optional.of(Reason.TIME_OVER));

        assertThat(told(over, Told.NOBODY)).isEmpty();
        assertThat(told(over, Told.EVERYBODY).get(0).subject())
                .isEqualTo("over, back to normal jet-1: weak boost");
        assertThat(told(over, Told.EVERYBODY).get(0).text())
                .contains("No longer shelved: its time was over, said by Kim.")
                .contains("It has come 4 times.");
    }

    @Test
    void one_who_ends_a_shelf_without_a_word_is_named() {
        AlarmChange back =
                change(
                        AlarmEvent.UNSHELVED,
                        AlarmState.SHELVED,
                        AlarmState.UNACKNOWLEDGED,
                        AlarmState.UNACKNOWLEDGED,
                        "");

        assertThat(told(back, Told.NOBODY).get(0).text())
                .contains("It was shelved and is active; Kim has ended that.");
    }

    @Test
    void a_chattering_alarm_is_told_once_with_its_count_and_its_repeats_never() {
        AlarmChange chattering =
                change(
                        AlarmEvent.CHATTERING,
                        AlarmState.RETURNED_UNACKNOWLEDGED,
                        AlarmState.UNACKNOWLEDGED,
                        AlarmState.UNACKNOWLEDGED,
                        "");
        AlarmChange repeated =
                change(
                        AlarmEvent.REPEATED,
                        AlarmState.UNACKNOWLEDGED,
                        AlarmState.UNACKNOWLEDGED,
                        AlarmState.UNACKNOWLEDGED,
                        "");

        assertThat(told(chattering, Told.NOBODY).get(0).text())
                .contains("It comes and goes: 4 times since it was first raised.");
        assertThat(told(repeated, Told.EVERYBODY)).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(AlarmEvent.class)
    void every_event_that_is_told_has_a_subject_and_a_text(AlarmEvent event) {
        AlarmState to =
                switch (event) {
                    case SHELVED -> AlarmState.SHELVED;
                    case SUPPRESSED -> AlarmState.SUPPRESSED;
                    case REMOVED -> AlarmState.OUT_OF_SERVICE;
                    case LATCHED -> AlarmState.LATCHED_UNACKNOWLEDGED;
                    case RESET, RETURNED -> AlarmState.NORMAL;
                    case RAISED,
                            WORSENED,
                            EASED,
                            ACKNOWLEDGED,
                            UNSHELVED,
                            RELEASED,
                            RESTORED,
                            CHATTERING,
                            REPEATED,
                            SETTLED ->
                            AlarmState.UNACKNOWLEDGED;
                };
        AlarmState own = to.isHeld() ? AlarmState.UNACKNOWLEDGED : to;

        AlarmChange change = change(event, AlarmState.NORMAL, to, own, "w");

        assertThat(told(change, Told.EVERYBODY))
                .hasSize(change.isSilent() ? 0 : 1)
                .allMatch(m -> m.text().contains("jet-1") && m.subject().contains("weak boost"));
    }
}
