package leat.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import java.nio.charset.StandardCharsets;
import leat.HostileText;
import org.junit.jupiter.api.Test;

class JsonTest {

    @Test
    void document_is_harmless_to_show_and_every_whole_character_comes_back_from_its_bytes()
            throws JsonProcessingException {
        String printed =
                Json.print(
                        JsonNodeFactory.instance
                                .objectNode()
                                .put(HostileText.ALL, HostileText.ALL + "\udb40\udc01"));

        byte[] bytes = printed.getBytes(StandardCharsets.UTF_8);

        HostileText.assertHarmless(printed);
        assertThat(
                        new ObjectMapper()
                                .readTree(new String(bytes, StandardCharsets.UTF_8))
                                .path(HostileText.WHOLE)
                                .asText())
                .isEqualTo(HostileText.WHOLE + "\udb40\udc01");
    }

    @Test
    void plain_letters_of_any_script_stay_as_they_are() {
        assertThat(
                        Json.print(
                                JsonNodeFactory.instance
                                        .objectNode()
                                        .put("by", "Zo\u00eb \u6c34 \u00b5")))
                .contains("Zo\u00eb \u6c34 \u00b5");
    }
}
