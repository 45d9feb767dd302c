package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import leat.signal.PressureUnit;
import leat.store.Message;
import leat.words.Language;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class TrialTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    private static Message said(Language language) {
        return new Wording(Changes.site(language, PressureUnit.PSI))
                .message(Trial.of("hall", Changes.RAISED));
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void subject_and_first_line_say_that_it_is_a_test_and_that_nothing_is_to_do(Language language) {
        Message message = said(language);

        assertThat(message.subject()).matches("TEST, (nothing to do|nichts zu tun): Boatyard");
        assertThat(message.text().lines().findFirst().orElseThrow())
                .startsWith("TEST, ")
                .hasSizeLessThanOrEqualTo(160);
        assertThat(message.text()).contains("\"hall\"").doesNotContain("WARNING", "CRITICAL");
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void a_program_sees_that_it_is_a_test_and_of_no_alarm(Language language) throws Exception {
        Message message = said(language);

        JsonNode json = JSON.readTree(message.json());
        JsonNode schema = JSON.readTree(Path.of("config/notice-message.schema.json").toFile());
        assertThat(SchemaCheck.problems(schema, json)).isEmpty();
        assertThat(json.get("test").booleanValue()).isTrue();
        assertThat(json.get("event").textValue()).isEqualTo("test");
        assertThat(message.kind()).isEqualTo(Message.Purpose.NOTICE);
        assertThat(message.alarmId()).isEmpty();
        assertThat(message.topic()).isEqualTo("notice");
    }
}
