package leat.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The transition table of ANSI/ISA-18.2-2016 and IEC 62682, in own wording, from
 * references/alarm_transitions.csv (state letters from memory; where the standard leaves a choice
 * the file states one). leat uses the states A to D so far.
 */
class TransitionsTest {

    private static final Map<String, AlarmState> BY_LETTER =
            Map.of(
                    "A", AlarmState.NORMAL,
                    "B", AlarmState.UNACKNOWLEDGED,
                    "C", AlarmState.ACKNOWLEDGED,
                    "D", AlarmState.RETURNED_UNACKNOWLEDGED);

    @ParameterizedTest
    @EnumSource(AlarmState.class)
    void every_state_goes_where_the_published_table_says(AlarmState state) throws IOException {
        Map<String, String> row = row(state);

        assertThat(Transitions.after(state, AlarmEvent.RAISED))
                .isEqualTo(cell(row, "condition_on"));
        assertThat(Transitions.after(state, AlarmEvent.RETURNED))
                .isEqualTo(cell(row, "condition_off"));
        assertThat(Transitions.after(state, AlarmEvent.ACKNOWLEDGED)).isEqualTo(cell(row, "ack"));
    }

    @Test
    void an_alarm_that_worsens_is_annunciated_again_even_when_acknowledged() {
        assertThat(Transitions.after(AlarmState.ACKNOWLEDGED, AlarmEvent.WORSENED))
                .contains(AlarmState.UNACKNOWLEDGED);
    }

    @Test
    void a_grade_can_only_change_while_the_condition_holds() {
        for (AlarmState state : List.of(AlarmState.NORMAL, AlarmState.RETURNED_UNACKNOWLEDGED)) {
            assertThat(Transitions.after(state, AlarmEvent.WORSENED)).isEmpty();
            assertThat(Transitions.after(state, AlarmEvent.EASED)).isEmpty();
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
                    Map<String, String> row = new java.util.HashMap<>();
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
