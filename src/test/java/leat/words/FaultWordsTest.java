package leat.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class FaultWordsTest {

    private static final Phrases GERMAN = Phrases.in(Language.GERMAN);
    private static final FaultWords WORDS = new FaultWords(GERMAN);

    /** Values that no phrase fits. */
    private static final Object[] VALUES = {"7", "81", "902", "5"};

    private static List<String> keys() {
        return Phrases.in(Language.ENGLISH).keys("fault.");
    }

    @ParameterizedTest
    @MethodSource("keys")
    void what_is_reported_in_english_is_read_back_as_that_phrase_and_no_other(String key) {
        String reported = FaultWords.english(key.substring("fault.".length()), VALUES);

        assertThat(WORDS.of(reported)).isEqualTo(GERMAN.say(key, VALUES));
        assertThat(new FaultWords(Phrases.in(Language.ENGLISH)).of(reported)).isEqualTo(reported);
    }

    /** As a link or route tells it: with its endpoint in front. */
    @ParameterizedTest
    @MethodSource("keys")
    void it_is_read_back_behind_the_place_that_it_is_about(String key) {
        String reported = FaultWords.english(key.substring("fault.".length()), VALUES);
        String german = GERMAN.say(key, VALUES);

        assertThat(WORDS.of("tcp://192.0.2.11:1883: " + reported))
                .isEqualTo("tcp://192.0.2.11:1883: " + german);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "192.0.2.10:502, unit 1, input register 0: silent for 2.0 s: connected, but no whole reply"
                        + " within 500 ms; check the unit id, and the power of the device behind a gateway"
                        + "|192.0.2.10:502, Unit 1, Input-Register 0: stumm seit 2,0 s: verbunden, aber keine"
                        + " ganze Antwort binnen 500 ms; Unit-ID prüfen, und die Stromversorgung des Geräts"
                        + " hinter einem Gateway",
                "plc:502, unit 3, holding register 0 to 7: device answered with exception 2, illegal data"
                        + " address: it has nothing there; check the address, which counts from 0"
                        + "|plc:502, Unit 3, Holding-Register 0 bis 7: das Gerät antwortet mit Ausnahme 2,"
                        + " ungültige Adresse: dort hat es nichts; Adresse prüfen, sie zählt ab 0",
                "no connection to the broker: tcp://192.0.2.11:1883: connect: no answer within 5.0 s"
                        + "|keine Verbindung zum Broker: tcp://192.0.2.11:1883: Verbinden: keine Antwort"
                        + " binnen 5,0 s",
                "not delivered within 24 h; mail.example:25: not for a@b.example: not taken"
                        + "|nicht zugestellt binnen 24 h; mail.example:25: nicht für a@b.example: nicht"
                        + " angenommen",
                "siren: exit code 3; it said: no horn|siren: Exit-Code 3; es sagte: no horn"
            })
    void sentence_of_parts_is_said_part_by_part(String english, String german) {
        assertThat(WORDS.of(english)).isEqualTo(german);
    }

    @Test
    void what_leat_did_not_make_stays_as_it_is() {
        for (String foreign : List.of("", "java.lang.Oops", "{0} '{1}'", "way to nowhere: 1.5.2")) {
            assertThat(WORDS.of(foreign)).isEqualTo(foreign);
        }
    }

    /** A time bound that only what never ends could miss. */
    @Test
    @Timeout(60)
    void text_that_looks_like_many_parts_is_read_in_no_time() {
        for (String part : List.of(", a: silent for 1 s: ", "; it said: ", ": not for ", ", ")) {
            assertThat(WORDS.of(part.repeat(900 / part.length()))).isNotEmpty();
        }
    }

    @Test
    void hostile_length_is_not_even_read() {
        String long1 = ", a: b; c".repeat(1_000);

        assertThat(WORDS.of(long1)).isSameAs(long1);
    }
}
