package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import leat.config.Site;
import leat.rule.Grade;
import leat.signal.PressureUnit;
import leat.store.Message;
import leat.words.Language;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

class StoreNoticeTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    private static Stream<Arguments> every() {
        return Stream.of(Language.values())
                .flatMap(
                        language ->
                                Arrays.stream(StoreNotice.News.values())
                                        .map(news -> Arguments.of(language, news)));
    }

    private static Message said(Language language, StoreNotice.News news) {
        Site site = Changes.site(language, PressureUnit.PSI);
        StoreNotice notice =
                new StoreNotice(news, Grade.CRITICAL, Changes.SINCE, "the disk is full", 1234);
        return Changes.said(site, notice.id(Changes.RAISED), notice);
    }

    @ParameterizedTest
    @MethodSource("every")
    void each_says_where_since_when_and_why_or_what_is_lost(
            Language language, StoreNotice.News news) {
        Message message = said(language, news);

        assertThat(message.subject()).contains("Boatyard").hasSizeLessThan(60);
        assertThat(message.text()).contains("Boatyard", "2026-01-05 07:00:31 +01:00");
        assertThat(message.text())
                .containsPattern(
                        news == StoreNotice.News.WORKS
                                ? "1[,.]234"
                                : "(Why|Warum): the disk is full");
        assertThat(message.machine()).isEqualTo(Message.EVERY_MACHINE);
        assertThat(message.kind()).isEqualTo(Message.Purpose.NOTICE);
    }

    @ParameterizedTest
    @MethodSource("every")
    void each_keeps_to_the_schema_stored_or_not(Language language, StoreNotice.News news)
            throws IOException {
        JsonNode schema = JSON.readTree(Path.of("config/notice-message.schema.json").toFile());
        Message stored = said(language, news);
        Wording wording = new Wording(Changes.site(language, PressureUnit.PSI));

        Message unstored = wording.unstored(stored);

        assertThat(SchemaCheck.problems(schema, JSON.readTree(stored.json()))).isEmpty();
        assertThat(SchemaCheck.problems(schema, JSON.readTree(unstored.json()))).isEmpty();
        assertThat(stored.json()).doesNotContain("\"stored\"");
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void message_that_is_not_stored_says_so_in_its_last_line_and_is_else_the_same(
            Language language) {
        Wording wording = new Wording(Changes.site(language, PressureUnit.PSI));
        Message call =
                Changes.said(wording, Changes.raised(Changes.weakBoost(Grade.CRITICAL, "x")));

        Message unstored = wording.unstored(call);

        List<String> lines = unstored.text().lines().toList();
        assertThat(lines.subList(0, lines.size() - 1)).isEqualTo(call.text().lines().toList());
        assertThat(lines.get(lines.size() - 1))
                .matches("(Not stored yet|Noch nicht gespeichert): .*leat.*");
        assertThat(unstored.saying(call.text(), call.json())).isEqualTo(call);
    }
}
