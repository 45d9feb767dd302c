package leat.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import leat.json.Document;
import leat.measure.Absence;
import leat.measure.Figure;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvTest {

    @Test
    void names_stand_above_and_an_absent_number_is_an_empty_cell() {
        ObjectNode first = JsonNodeFactory.instance.objectNode().put("number", "jet-1/1");
        Document.put(first, "rise_s", Figure.of(1.25));
        ObjectNode second = JsonNodeFactory.instance.objectNode().put("number", "jet-1/2");
        Document.put(second, "rise_s", Figure.absent(Absence.CUT_SHORT));
        second.put("note", "rise 7.00 s, \"very slow\"");

        String csv = Csv.ofObjects(List.of(first, second));

        assertThat(csv)
                .isEqualTo(
                        "number,rise_s,note\r\njet-1/1,1.25,\r\n"
                                + "jet-1/2,,\"rise 7.00 s, \"\"very slow\"\"\"\r\n");
    }

    @Test
    void nothing_is_written_of_nothing() {
        assertThat(Csv.ofObjects(List.of())).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "=cmd|' /C calc'!A0",
                "+1",
                "-1+1",
                "@SUM(A1)",
                "\t=1",
                "\r=1",
                "\u0000=1",
                "\ufeff=1",
                "\uff1d1"
            })
    void text_that_a_spreadsheet_takes_for_a_formula_has_an_apostrophe_in_front(String note) {
        ObjectNode object =
                JsonNodeFactory.instance.objectNode().put("level_psi", -1.5).put("note", note);

        String csv = Csv.ofObjects(List.of(object));

        String apostrophe = note.startsWith("\r") ? "\"'" : "'";
        assertThat(csv).startsWith("level_psi,note\r\n-1.5," + apostrophe + note);
    }
}
