package leat.wiring;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.LongFunction;
import leat.Gear;
import leat.HostileText;
import leat.config.Point;
import leat.config.Point.TimeFormat;
import leat.config.SiteFile;
import leat.mqtt.Heard;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What the topics of a broker are taken for. */
class TopicGuessesTest {

    private static final long NOW = 1_780_000_000_000L;
    private static final Doubts NOTHING_SAID = new Doubts(Optional.empty(), Optional.empty());

    private static Heard.Message message(long atMillis, boolean retained, String payload) {
        String bytes =
                new String(payload.getBytes(StandardCharsets.UTF_8), StandardCharsets.ISO_8859_1);
        return new Heard.Message(atMillis, retained, bytes.length(), bytes);
    }

    /** Five messages, half a second apart. */
    private static Heard heard(String topic, LongFunction<String> payload) {
        return every(500, topic, payload);
    }

    private static Heard every(long millis, String topic, LongFunction<String> payload) {
        List<Heard.Message> messages = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            long at = NOW + i * millis;
            messages.add(message(at, false, payload.apply(at)));
        }
        return new Heard(List.of(new Heard.Topic(topic, 5, 0, messages)), 0, Optional.empty());
    }

    private static Guess first(Heard heard) {
        return new TopicGuesses(NOTHING_SAID).of(heard).get(0);
    }

    private static Point.Topic place(Guess guess) {
        return (Point.Topic) guess.point();
    }

    @Test
    void a_bare_number_is_the_payload_itself() {
        Guess guess = first(heard("yard/boosted", at -> " 62.3 "));

        assertThat(place(guess).valuePointer()).isEmpty();
        assertThat(guess.as()).isEqualTo("psi");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{'psi': 62.3, 'rssi': -71}                      | /psi             | psi",
                "{'id': 17, 'pressure_bar': 4.3}                 | /pressure_bar    | bar",
                "{'d': [{'v': 430, 'unit': 'kPa'}, {'v': 21}]}   | /d/0/v           | kPa",
                "{'a/b': {'~c': 62.3}}                           | /a~1b/~0c        | psi",
                "{'it''s': {'psi': 62}}                          | /it''s/psi       | psi"
            })
    void the_number_in_a_document_is_found_with_its_unit(
            String payload, String pointer, String unit) {
        Guess guess = first(heard("t", at -> payload.replace('\'', '"').replace("\"\"", "'")));

        assertThat(place(guess).valuePointer()).contains(pointer.replace("''", "'"));
        assertThat(guess.as()).isEqualTo(unit);
    }

    private static List<Arguments> clocks() {
        LongFunction<String> iso = at -> '"' + Instant.ofEpochMilli(at - 30).toString() + '"';
        LongFunction<String> seconds = at -> Double.toString((at - 30) / 1e3);
        LongFunction<String> millis = at -> Long.toString(at - 30);
        return List.of(
                Arguments.of(iso, TimeFormat.ISO),
                Arguments.of(seconds, TimeFormat.EPOCH_S),
                Arguments.of(millis, TimeFormat.EPOCH_MS));
    }

    @ParameterizedTest
    @MethodSource("clocks")
    void a_time_that_is_about_now_is_the_sensors(LongFunction<String> clock, TimeFormat format) {
        Heard heard = heard("t", at -> "{\"n\": 7, \"t\": " + clock.apply(at) + ", \"psi\": 62.3}");

        assertThat(place(first(heard)).timePointer()).contains("/t");
        assertThat(place(first(heard)).timeFormat()).isEqualTo(format);
    }

    @Test
    void a_time_of_yesterday_is_left_out() {
        Heard heard = heard("t", at -> "{\"t\": " + (at - 86_400_000) + ", \"psi\": 62.3}");

        assertThat(place(first(heard)).timePointer()).isEmpty();
    }

    @Test
    void a_sensor_that_sends_rarely_is_given_time() {
        assertThat(place(first(every(500, "t", at -> "62"))).silentAfter().toSeconds())
                .isEqualTo(5);
        assertThat(place(first(every(4_000, "t", at -> "62"))).silentAfter().toSeconds())
                .isEqualTo(13);
    }

    @Test
    void what_the_broker_had_kept_is_never_marked() {
        Heard.Topic kept = new Heard.Topic("t", 1, 1, List.of(message(NOW, true, "62.3")));

        List<Guess> guesses =
                new TopicGuesses(NOTHING_SAID).of(new Heard(List.of(kept), 0, Optional.empty()));

        assertThat(guesses).isNotEmpty().noneMatch(guess -> guess.sense().isLikely());
        assertThat(guesses.get(0).sense().why().key()).contains("retained");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "{",
                "[[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]",
                "null",
                "true",
                "\"62\"",
                "NaN",
                "1e999",
                "{\"a\": 1, \"a\": 2}",
                "62 psi",
                "\u0000",
                "-",
                "{}",
                "[]"
            })
    void payloads_without_a_number_are_no_pressure(String payload) {
        assertThat(new TopicGuesses(NOTHING_SAID).of(heard("t", at -> payload))).isEmpty();
    }

    @Test
    void bytes_of_chance_do_no_harm() {
        Random chance = new Random(Gear.seed());
        for (int i = 0; i < 2_000; i++) {
            byte[] bytes = new byte[chance.nextInt(60)];
            chance.nextBytes(bytes);
            String payload = new String(bytes, StandardCharsets.ISO_8859_1);
            String mixed = chance.nextBoolean() ? payload : "{\"psi\": 6" + payload + "}";

            new TopicGuesses(NOTHING_SAID).of(heard("t" + payload, at -> mixed));
        }
    }

    private static List<String> hostile() {
        return HostileText.EACH;
    }

    @ParameterizedTest
    @MethodSource("hostile")
    void whatever_a_topic_and_its_keys_are_called_the_lines_are_harmless_and_in_order(
            String words) {
        String key = words.replace("\\", "\\\\").replace("\"", "\\\"");
        Heard heard =
                heard("yard/" + words, at -> "{\"" + key + "\": {\"psi\": 62}, \"psi\": 62.5}");

        for (Guess guess : new TopicGuesses(NOTHING_SAID).of(heard)) {
            String lines =
                    String.join(
                            "\n",
                            new ChannelLines(Channel.BOOSTED, "b", Optional.of(TO_200))
                                    .of(guess, "probed"));

            HostileText.assertHarmless(lines);
            assertThat(SiteFile.archived(SITE + lines + "\n").problems()).isEmpty();
        }
    }

    private static final Span TO_200 = new Span(0, 200, PressureUnit.PSI);
    private static final String SITE =
            """
            site: { name: Yard }
            connections: { b: { mqtt: { url: 'tcp://127.0.0.1', client_id: x } } }
            tell: { log: { by: { log: { } } } }
            machines:
              jet-1:
                channels:
            """;

    @Tag(Gear.THOROUGH)
    @Test
    void a_huge_document_is_walked_no_further_than_its_first_numbers() {
        StringBuilder many = new StringBuilder("{\"psi\": 62.3");
        for (int i = 0; i < 1_000; i++) {
            many.append(", \"x").append(i).append("\": ").append(i);
        }

        Guess guess = first(heard("t", at -> many + "}"));

        assertThat(place(guess).valuePointer()).contains("/psi");
        assertThat(new TopicGuesses(NOTHING_SAID).of(heard("t", at -> many + "}")))
                .hasSizeLessThan(64 * 20);
    }
}
