package leat.acquire.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import leat.config.Point;
import leat.config.Point.TimeFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PayloadReaderTest {

    private static final long SIX_UTC = 1_767_592_831_000_000L; // 2026-01-05T06:00:31Z

    private final PayloadReader plain = reader("", "", TimeFormat.ISO, false);
    private final PayloadReader json = reader("/psi", "", TimeFormat.ISO, false);

    @ParameterizedTest
    @CsvSource({"42, 42", "-0.5, -0.5", "'  101.25\n', 101.25", "+1e2, 100", ".5, 0.5", "5., 5"})
    void plain_number_is_read_as_it_stands(String payload, double expected) throws Exception {
        assertThat(plain.read(payload.getBytes(UTF_8)))
                .isEqualTo(new Payload(expected, OptionalLong.empty()));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "NaN",
                "Infinity",
                "-Infinity",
                "0x1p3",
                "1d",
                "42,5",
                "42 psi",
                "null",
                "true",
                "1e999",
                "\u0000",
                "4\u00002",
                "{\"psi\":1}",
                "--1",
                "1_000"
            })
    void what_is_no_plain_number_is_malformed(String payload) {
        assertThatThrownBy(() -> plain.read(payload.getBytes(UTF_8)))
                .isInstanceOf(MalformedPayload.class);
    }

    @Test
    void pointer_finds_the_number_deep_in_the_payload() throws Exception {
        PayloadReader deep = reader("/m/0/a~1b", "", TimeFormat.ISO, false);

        Payload read = deep.read("{\"m\":[{\"a/b\":97.5}],\"x\":\"y\"}".getBytes(UTF_8));

        assertThat(read.raw()).isEqualTo(97.5);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"psi\":null}",
                "{\"psi\":true}",
                "{\"psi\":\"42\"}",
                "{\"psi\":{}}",
                "{\"psi\":[1]}",
                "{\"bar\":1}",
                "{\"psi\":1",
                "{\"psi\":1} x",
                "{\"psi\":NaN}",
                "{\"psi\":1e999}",
                "{\"psi\":40,\"psi\":99}",
                "{\"psi\":40,\"\\u0070si\":99}",
                "{\"psi\":40,\"at\":{\"a\":1,\"a\":2}}",
                "[]",
                "42",
                "",
                "nonsense"
            })
    void value_that_is_no_number_is_malformed(String payload) {
        assertThatThrownBy(() -> json.read(payload.getBytes(UTF_8)))
                .isInstanceOf(MalformedPayload.class);
    }

    @ParameterizedTest
    @CsvSource({
        "ISO, '\"2026-01-05T07:00:31+01:00\"', 0",
        "ISO, '\"2026-01-05T06:00:31.123456Z\"', 123456",
        "ISO, '\"2300-01-01T00:00:00Z\"', 8646199169000000",
        "EPOCH_S, 1767592831, 0",
        "EPOCH_S, 1767592831.25, 250000",
        "EPOCH_MS, 1767592831007, 7000",
        "EPOCH_MS, 1767592831007.5, 7500"
    })
    void time_of_the_payload_is_taken(TimeFormat format, String time, long micros)
            throws Exception {
        PayloadReader timed = reader("/v", "/t", format, false);

        Payload read = timed.read(("{\"v\":1,\"t\":" + time + "}").getBytes(UTF_8));

        assertThat(read.atMicros()).hasValue(SIX_UTC + micros);
    }

    @ParameterizedTest
    @CsvSource({
        "ISO, '\"2026-01-05T07:00:31\"'",
        "ISO, '\"2026-13-05T07:00:31Z\"'",
        "ISO, '\"+999999999-01-01T00:00:00Z\"'",
        "ISO, '\"-999999999-01-01T00:00:00Z\"'",
        "ISO, 1767592831",
        "EPOCH_S, '\"1767592831\"'",
        "EPOCH_S, 1e300",
        "EPOCH_S, 1e999999999",
        "EPOCH_S, -5",
        "EPOCH_MS, 99999999999999999999999999",
        "EPOCH_MS, null"
    })
    void time_that_is_none_makes_the_payload_malformed(TimeFormat format, String time) {
        PayloadReader timed = reader("/v", "/t", format, false);

        assertThatThrownBy(() -> timed.read(("{\"v\":1,\"t\":" + time + "}").getBytes(UTF_8)))
                .isInstanceOf(MalformedPayload.class);
    }

    @ParameterizedTest
    @CsvSource({"1, 1", "0, 0", "true, 1", "false, 0", "on, 1", "OFF, 0", "'\"on\"', 1"})
    void contact_is_read_from_number_truth_value_or_word(String payload, double expected)
            throws Exception {
        PayloadReader contact = reader("", "", TimeFormat.ISO, true);

        assertThat(contact.read(payload.getBytes(UTF_8)).raw()).isEqualTo(expected);
    }

    @ParameterizedTest
    @CsvSource({"1, 1", "0, 0", "1.0, 1", "true, 1", "false, 0", "'\"on\"', 1", "'\"off\"', 0"})
    void contact_in_json_is_read_likewise(String value, double expected) throws Exception {
        PayloadReader contact = reader("/run", "", TimeFormat.ISO, true);

        assertThat(contact.read(("{\"run\":" + value + "}").getBytes(UTF_8)).raw())
                .isEqualTo(expected);
    }

    @ParameterizedTest
    @ValueSource(strings = {"null", "2", "-1", "\"perhaps\"", "[]", "\"\""})
    void contact_that_says_neither_is_malformed(String value) {
        PayloadReader contact = reader("/run", "", TimeFormat.ISO, true);

        assertThatThrownBy(() -> contact.read(("{\"run\":" + value + "}").getBytes(UTF_8)))
                .isInstanceOf(MalformedPayload.class);
    }

    @Test
    void huge_payload_is_not_even_parsed() {
        byte[] huge = ("{\"psi\":1,\"x\":\"" + "x".repeat(5_000_000) + "\"}").getBytes(UTF_8);

        assertThatThrownBy(() -> json.read(huge))
                .isInstanceOf(MalformedPayload.class)
                .hasMessageContaining("bytes long");
    }

    @Test
    void deeply_nested_payload_is_malformed() {
        byte[] deep = ("{\"psi\":" + "[".repeat(30_000) + "]".repeat(30_000) + "}").getBytes(UTF_8);

        assertThatThrownBy(() -> json.read(deep)).isInstanceOf(MalformedPayload.class);
    }

    @Test
    void any_bytes_give_a_payload_or_say_that_they_are_malformed() {
        PayloadReader timed = reader("/psi", "/t", TimeFormat.ISO, false);
        byte[] good = "{\"psi\":41.5,\"t\":\"2026-01-05T07:00:31+01:00\"}".getBytes(UTF_8);
        Random random = new Random(2);
        int read = 0;
        int malformed = 0;
        for (int run = 0; run < 20_000; run++) {
            byte[] bytes = run % 2 == 0 ? good.clone() : new byte[random.nextInt(50)];
            for (int i = random.nextInt(4); i > 0 && run % 2 == 0; i--) {
                bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
            }
            if (run % 2 == 1) {
                random.nextBytes(bytes);
            }
            try {
                timed.read(bytes);
                read++;
            } catch (MalformedPayload e) {
                malformed++;
            }
        }

        assertThat(read).as("seed 2").isGreaterThan(1000);
        assertThat(malformed).as("seed 2").isGreaterThan(10_000);
    }

    @Test
    void time_without_a_pointer_to_the_value_is_refused() {
        assertThatThrownBy(() -> reader("", "/t", TimeFormat.ISO, false))
                .isInstanceOf(IllegalArgumentException.class);
    }

    private static PayloadReader reader(
            String value, String time, TimeFormat format, boolean contact) {
        return new PayloadReader(
                new Point.Topic(
                        "boatyard/jet-1/inlet",
                        1,
                        Optional.of(value).filter(v -> !v.isEmpty()),
                        Optional.of(time).filter(t -> !t.isEmpty()),
                        format,
                        Duration.ofSeconds(5)),
                contact);
    }
}
