package leat.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The transition table of ANSI/ISA-18.2-2016 and IEC 62682, in own wording, from
 * references/alarm_transitions.csv (state letters from memory; where the standard leaves a choice
 * the file states one).
 */
class TransitionsTest {

    private static final Map<String, AlarmState> BY_LETTER =
            Map.of(
                    "A", AlarmState.NORMAL,
                    "B", AlarmState.UNACKNOWLEDGED,
                    "C", AlarmState.ACKNOWLEDGED,
                    "D", AlarmState.RETURNED_UNACKNOWLEDGED,
                    "E", AlarmState.LATCHED_UNACKNOWLEDGED,
                    "F", AlarmState.LATCHED_ACKNOWLEDGED,
                    "G", AlarmState.SHELVED,
                    "H", AlarmState.SUPPRESSED,
                    "I", AlarmState.OUT_OF_SERVICE);

    /** Which column of the file says where an event leads. */
    private static final Map<String, AlarmEvent> BY_COLUMN =
            Map.of(
                    "condition_on", AlarmEvent.RAISED,
                    "condition_off", AlarmEvent.RETURNED,
                    "condition_off_latching", AlarmEvent.LATCHED,
                    "ack", AlarmEvent.ACKNOWLEDGED,
                    "reset", AlarmEvent.RESET,
                    "shelve", AlarmEvent.SHELVED,
                    "suppress", AlarmEvent.SUPPRESSED,
                    "out_of_service", AlarmEvent.REMOVED);

    static List<AlarmState> ownStates() {
        return EnumSet.range(AlarmState.NORMAL, AlarmState.LATCHED_ACKNOWLEDGED).stream().toList();
    }

    /** Every life that there is: six states of its own, held by any of eight sets of holds. */
    static List<Life> lives() {
        List<Life> lives = new ArrayList<>();
        for (AlarmState own : ownStates()) {
            for (int bits = 0; bits < 8; bits++) {
                Set<Hold> holds = EnumSet.noneOf(Hold.class);
                for (Hold hold : Hold.values()) {
                    if ((bits >> hold.ordinal() & 1) == 1) {
                        holds.add(hold);
                    }
                }
                lives.add(new Life(own, holds));
            }
        }
        return lives;
    }

    static List<Life> heldLives() {
        return lives().stream().filter(Life::isHeld).toList();
    }

    @ParameterizedTest
    @MethodSource("ownStates")
    void every_free_state_goes_where_the_published_table_says_and_nowhere_else(AlarmState state)
            throws IOException {
        Map<String, String> row = row(state);

        for (Map.Entry<String, AlarmEvent> column : BY_COLUMN.entrySet()) {
            assertThat(
                            Transitions.after(new Life(state, Set.of()), column.getValue())
                                    .map(Life::shown))
                    .as("%s in state %s", column.getValue(), state)
                    .isEqualTo(cell(row, column.getKey()));
        }
    }

    @ParameterizedTest
    @EnumSource(Hold.class)
    void a_held_alarm_stays_held_whatever_its_condition_does_and_refuses_an_acknowledgement(
            Hold hold) throws IOException {
        Map<String, String> row = row(hold.shown());
        Life clear = Life.NORMAL.with(hold);

        Life active = clear.after(AlarmEvent.RAISED);

        assertThat(active.shown()).isEqualTo(BY_LETTER.get(row.get("condition_on")));
        assertThat(active.after(AlarmEvent.RETURNED).shown())
                .isEqualTo(BY_LETTER.get(row.get("condition_off")));
        assertThat(active.after(AlarmEvent.LATCHED).shown())
                .isEqualTo(BY_LETTER.get(row.get("condition_off_latching")));
        assertThat(row.get("ack")).isEqualTo("REFUSED");
        assertThat(Transitions.after(active, AlarmEvent.ACKNOWLEDGED)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"SHELVED,UNSHELVED", "SUPPRESSED,RELEASED", "OUT_OF_SERVICE,RESTORED"})
    void the_end_of_a_hold_leads_where_the_published_table_says(Hold hold, AlarmEvent end)
            throws IOException {
        Map<String, String> row = row(hold.shown());
        Life held = Life.NORMAL.with(hold);

        assertThat(held.after(end).shown()).isEqualTo(BY_LETTER.get(row.get("release_clear")));
        assertThat(held.after(AlarmEvent.RAISED).after(end).shown())
                .isEqualTo(BY_LETTER.get(row.get("release_active")));
    }

    /** More than the file asks: what was unacknowledged or latched before the hold is not lost. */
    @ParameterizedTest
    @CsvSource({
        "UNACKNOWLEDGED,UNACKNOWLEDGED",
        "ACKNOWLEDGED,UNACKNOWLEDGED",
        "RETURNED_UNACKNOWLEDGED,RETURNED_UNACKNOWLEDGED",
        "LATCHED_UNACKNOWLEDGED,LATCHED_UNACKNOWLEDGED",
        "LATCHED_ACKNOWLEDGED,LATCHED_ACKNOWLEDGED"
    })
    void what_waited_before_a_hold_waits_after_it(AlarmState before, AlarmState after) {
        Life life = new Life(before, Set.of());

        assertThat(life.after(AlarmEvent.SHELVED).after(AlarmEvent.UNSHELVED).shown())
                .isEqualTo(after);
    }

    @Test
    void an_unacknowledged_alarm_that_returns_under_a_hold_is_returned_unacknowledged_after_it() {
        Life life =
                Life.NORMAL
                        .after(AlarmEvent.RAISED)
                        .after(AlarmEvent.SUPPRESSED)
                        .after(AlarmEvent.RETURNED);

        assertThat(life.after(AlarmEvent.RELEASED).shown())
                .isEqualTo(AlarmState.RETURNED_UNACKNOWLEDGED);
    }

    @ParameterizedTest
    @MethodSource("heldLives")
    void an_alarm_is_free_only_when_its_last_hold_has_ended(Life held) {
        Life life = held;
        life = life.has(Hold.SHELVED) ? life.after(AlarmEvent.UNSHELVED) : life;
        assertThat(life.isHeld())
                .isEqualTo(held.has(Hold.SUPPRESSED) || held.has(Hold.OUT_OF_SERVICE));
        life = life.has(Hold.SUPPRESSED) ? life.after(AlarmEvent.RELEASED) : life;
        assertThat(life.isHeld()).isEqualTo(held.has(Hold.OUT_OF_SERVICE));
    }

    @ParameterizedTest
    @MethodSource("lives")
    void a_hold_that_is_not_there_cannot_end(Life life) {
        assertThat(Transitions.after(life, AlarmEvent.UNSHELVED).isPresent())
                .isEqualTo(life.has(Hold.SHELVED));
        assertThat(Transitions.after(life, AlarmEvent.RELEASED).isPresent())
                .isEqualTo(life.has(Hold.SUPPRESSED));
        assertThat(Transitions.after(life, AlarmEvent.RESTORED).isPresent())
                .isEqualTo(life.has(Hold.OUT_OF_SERVICE));
    }

    @ParameterizedTest
    @MethodSource("lives")
    void nobody_acknowledges_or_resets_what_is_held(Life life) {
        assertThat(Transitions.after(life, AlarmEvent.ACKNOWLEDGED).isPresent())
                .isEqualTo(!life.isHeld() && life.own().needsAcknowledging());
        assertThat(Transitions.after(life, AlarmEvent.RESET).isPresent())
                .isEqualTo(!life.isHeld() && life.own() == AlarmState.LATCHED_ACKNOWLEDGED);
    }

    @Test
    void an_alarm_that_worsens_is_annunciated_again_even_when_acknowledged() {
        Life acknowledged = new Life(AlarmState.ACKNOWLEDGED, Set.of());

        assertThat(acknowledged.after(AlarmEvent.WORSENED).shown())
                .isEqualTo(AlarmState.UNACKNOWLEDGED);
    }

    @ParameterizedTest
    @MethodSource("lives")
    void a_condition_comes_only_when_it_is_clear_and_changes_only_while_it_holds(Life life) {
        boolean active = life.own().isActive();

        assertThat(Transitions.after(life, AlarmEvent.RAISED).isPresent()).isEqualTo(!active);
        assertThat(Transitions.after(life, AlarmEvent.CHATTERING)).isPresent();
        for (AlarmEvent event :
                List.of(
                        AlarmEvent.WORSENED,
                        AlarmEvent.EASED,
                        AlarmEvent.REPEATED,
                        AlarmEvent.SETTLED,
                        AlarmEvent.RETURNED,
                        AlarmEvent.LATCHED)) {
            assertThat(Transitions.after(life, event).isPresent())
                    .as("%s in %s", event, life)
                    .isEqualTo(active);
        }
    }

    @ParameterizedTest
    @MethodSource("lives")
    void what_is_repeated_or_settled_changes_no_state(Life life) {
        for (AlarmEvent event : List.of(AlarmEvent.REPEATED, AlarmEvent.SETTLED)) {
            assertThat(Transitions.after(life, event).orElse(life)).isEqualTo(life);
        }
    }

    private static Optional<AlarmState> cell(Map<String, String> row, String column) {
        return Optional.ofNullable(BY_LETTER.get(row.get(column)));
    }

    private static Map<String, String> row(AlarmState state) throws IOException {
        try (InputStream in =
                TransitionsTest.class.getResourceAsStream("/references/alarm_transitions.csv")) {
            List<String> lines =
                    new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
            String[] head = lines.get(0).split(",", -1);
            for (String line : lines.subList(1, lines.size())) {
                String[] cells = line.split(",", -1);
                if (state == BY_LETTER.get(cells[0].substring(0, 1))) {
                    Map<String, String> row = new HashMap<>();
                    for (int i = 0; i < head.length; i++) {
                        row.put(head[i], cells[i]);
                    }
                    return row;
                }
            }
        }
        throw new AssertionError("no row for " + state);
    }
}
