package leat.instruct;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import leat.config.ConnectionSettings;
import leat.config.InstructionSettings;
import leat.config.MachineSettings;
import leat.config.Secret;
import leat.mqtt.MqttLink;
import leat.rule.Limits;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.store.OneAlarm;
import leat.store.StoreReader;
import leat.store.WaitingInstruction;
import leat.tls.Trust;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The reception on a real store, with messages handed to it; the broker is tried elsewhere. */
class ReceptionTest {

    private static final long NOW = 1_767_592_800L; // 2026-01-05T06:00:00Z
    private static final String ACK = "\"do\":\"ack\",\"alarm\":\"1\"";
    private static final List<MachineSettings> MACHINES =
            List.of(new MachineSettings("jet-1", List.of(), Limits.DEFAULTS));
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir private Path folder;

    private final AtomicLong nowMicros = new AtomicLong(NOW * 1_000_000);
    private Path file;
    private Reception reception;
    private int nonces;

    @BeforeEach
    void a_store_with_one_alarm() {
        file = folder.resolve("leat.db");
        OneAlarm.store(file);
        reception = reception();
    }

    @Test
    void acknowledgement_is_left_as_the_command_line_leaves_it() {
        JsonNode answer = answer(anna(ACK));

        assertThat(answer.path("answer").asText()).isEqualTo("accepted");
        assertThat(waiting())
                .containsExactly(
                        new WaitingInstruction(
                                answer.path("instruction").longValue(),
                                "jet-1",
                                new Instruction(
                                        NOW * 1_000_000,
                                        "anna by MQTT",
                                        new Order.Acknowledge(OneAlarm.ID))));
        assertThat(reception.health().accepted()).isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource({
        "note, NOTE",
        "serviced, SERVICED",
        "learn, LEARN",
        "pump-replaced, PUMP_REPLACED",
        "transducer-changed, TRANSDUCER_CHANGED"
    })
    void journal_entry_is_left_with_its_kind(String word, Entry entry) {
        byte[] message =
                anna(
                        "\"do\":\"journal\",\"machine\":\"jet-1\",\"entry\":\""
                                + word
                                + "\",\"text\":\"new seal\"");

        assertThat(answer(message).path("answer").asText()).isEqualTo("accepted");
        assertThat(waiting())
                .extracting(WaitingInstruction::instruction)
                .containsExactly(
                        new Instruction(
                                NOW * 1_000_000,
                                "anna by MQTT",
                                new Order.Journal(entry, "new seal")));
    }

    @ParameterizedTest
    @MethodSource("orders")
    void each_order_is_left_as_the_command_line_leaves_it(String what, Instruction instruction) {
        JsonNode answer = answer(anna(what.replace('\'', '"')));

        assertThat(answer.path("answer").asText()).isEqualTo("accepted");
        assertThat(waiting())
                .containsExactly(
                        new WaitingInstruction(
                                answer.path("instruction").longValue(), "jet-1", instruction));
    }

    static List<Arguments> orders() {
        long at = NOW * 1_000_000;
        String by = "anna by MQTT";
        String id = OneAlarm.ID;
        return List.of(
                Arguments.of(
                        "'do':'shelve','alarm':'1','for':'8h','why':'gauge'",
                        new Instruction(
                                at, by, new Order.Shelve(id, at + 28_800_000_000L, "gauge"))),
                Arguments.of(
                        "'do':'unshelve','alarm':'1'",
                        new Instruction(at, by, new Order.Unshelve(id))),
                Arguments.of(
                        "'do':'reset','alarm':'1'", new Instruction(at, by, new Order.Reset(id))),
                Arguments.of(
                        "'do':'out-of-service','alarm':'1','turn':'on','why':'wiring'",
                        new Instruction(at, by, new Order.Remove(id, "wiring"))),
                Arguments.of(
                        "'do':'out-of-service','alarm':'1','turn':'off'",
                        new Instruction(at, by, new Order.Restore(id))),
                Arguments.of(
                        "'do':'service','machine':'jet-1','turn':'on','text':'new seal'",
                        new Instruction(at, by, new Order.Journal(Entry.SERVICE_ON, "new seal"))),
                Arguments.of(
                        "'do':'service','machine':'jet-1','turn':'off'",
                        new Instruction(at, by, new Order.Journal(Entry.SERVICE_OFF, ""))),
                Arguments.of(
                        "'do':'journal','machine':'jet-1','entry':'pump-replaced','found':'worn-booster'",
                        new Instruction(
                                at,
                                by,
                                new Order.Journal(Entry.PUMP_REPLACED, "", "worn-booster"))),
                Arguments.of(
                        "'do':'answer','about':'1','answer':'recovers','text':'in 2 s'",
                        new Instruction(
                                at, by, new Order.Journal(Entry.ANSWER, "in 2 s", "recovers"))));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            textBlock =
                    """
                    "do":"ack","alarm":"2"                                       | there is no alarm 2
                    "do":"ack"                                                   | missing: alarm
                    "do":"ack","alarm":"1","for":"8h"                            | not known here: for
                    "do":"stop","alarm":"1"                                      | there is nothing to do called stop; known: ack, answer, journal, out-of-service, reset, service, shelve, unshelve
                    "do":"journal","machine":"jet-9","text":"x"                  | there is no machine jet-9; known: jet-1
                    "do":"journal","machine":"jet-1"                             | say what was done: the text is empty
                    "do":"journal","machine":"jet-1","text":"x","entry":"Note"   | entry is none of note, serviced, learn, pump-replaced, coupling-gap, regulator-turned, filter-changed, strainer-cleaned, air-purged, transducer-changed
                    "do":"shelve","alarm":"1","for":"8h"                         | missing: why
                    "do":"shelve","alarm":"1","why":"x"                          | missing: for
                    "do":"shelve","for":"8h","why":"x"                           | missing: alarm
                    "do":"shelve","alarm":"2","for":"8h","why":"x"               | there is no alarm 2
                    "do":"shelve","alarm":"1","for":"8h","why":" "               | say why, such as "waiting for the new gauge"
                    "do":"shelve","alarm":"1","for":"8","why":"x"                | '8' is no length of time; allowed is a number with s, min, h, d or w, such as 30min or 8h
                    "do":"shelve","alarm":"1","for":"25h","why":"x"              | an alarm of jet-1 can be shelved for 24 h at a time (alarm.longest_hold in site.yaml)
                    "do":"shelve","alarm":"1","for":"8h","why":"\\udca7"          | the reason holds half a character; nothing was written down
                    "do":"unshelve"                                              | missing: alarm
                    "do":"unshelve","alarm":"1","why":"x"                        | not known here: why
                    "do":"unshelve","alarm":"2"                                  | there is no alarm 2
                    "do":"reset","machine":"jet-1"                               | missing: alarm
                    "do":"reset","alarm":"2"                                     | there is no alarm 2
                    "do":"out-of-service","alarm":"1"                            | missing: turn
                    "do":"out-of-service","alarm":"1","turn":"back"              | say on or off, not 'back'
                    "do":"out-of-service","alarm":"1","turn":"on"                | say why, such as "waiting for the new gauge"
                    "do":"out-of-service","alarm":"1","turn":"off","why":"x"     | no reason is kept of an alarm that is put back; leave it out
                    "do":"out-of-service","alarm":"2","turn":"off"               | there is no alarm 2
                    "do":"service","machine":"jet-1"                             | missing: turn
                    "do":"service","turn":"on"                                   | missing: machine
                    "do":"service","machine":"jet-1","turn":"ON"                 | say on or off, not 'ON'
                    "do":"service","machine":"jet-9","turn":"on"                 | there is no machine jet-9; known: jet-1
                    "do":"service","machine":"jet-1","turn":"on","why":"x"       | not known here: why
                    "do":"journal","machine":"jet-1","entry":"learn"             | say why, such as "waiting for the new gauge"
                    "do":"journal","machine":"jet-1","text":"x","entry":"service_on"  | entry is none of note, serviced, learn, pump-replaced, coupling-gap, regulator-turned, filter-changed, strainer-cleaned, air-purged, transducer-changed
                    "do":"answer","about":"jet-9","answer":"recovers"            | there is no machine and no alarm jet-9; machines: jet-1
                    "do":"answer","about":"jet-1"                                | missing: answer
                    """)
    void one_who_has_signed_is_told_what_cannot_be_done(String what, String reason) {
        JsonNode answer = answer(anna(what));

        assertThat(answer.path("answer").asText()).isEqualTo("refused");
        assertThat(answer.path("reason").asText()).isEqualTo(reason);
        assertThat(waiting()).isEmpty();
        assertThat(reception.health().notFollowed()).isEqualTo(1);
    }

    @Test
    void copy_is_refused_even_after_a_restart_and_with_the_clock_set_back() {
        byte[] message = anna(ACK);
        answer(message);

        assertRefusedWithoutAWord(message);
        reception = reception();
        assertRefusedWithoutAWord(message);
        nowMicros.addAndGet(3_600_000_000L);
        answer(anna(ACK, NOW + 3_600));
        nowMicros.addAndGet(-3_600_000_000L);
        assertRefusedWithoutAWord(message);
        assertThat(waiting()).hasSize(2);
        assertThat(reception.health().repeated()).isEqualTo(2);
    }

    @Test
    void nonce_of_what_could_not_be_followed_is_spent_too() {
        byte[] message = anna("\"do\":\"ack\",\"alarm\":\"2\"");
        answer(message);

        assertRefusedWithoutAWord(message);
    }

    @ParameterizedTest
    @ValueSource(longs = {-120, -1, 0, 1, 120})
    void clock_of_the_sender_may_be_off_by_the_window(long seconds) {
        assertThat(answer(anna(ACK, NOW + seconds)).path("answer").asText()).isEqualTo("accepted");
    }

    @ParameterizedTest
    @ValueSource(longs = {-121, 121, -86_400, 86_400, -NOW, Long.MAX_VALUE, Long.MIN_VALUE})
    void clock_of_the_sender_that_is_off_by_more_is_refused(long seconds) {
        long at = seconds == Long.MAX_VALUE || seconds == Long.MIN_VALUE ? seconds : NOW + seconds;

        assertRefusedWithoutAWord(anna(ACK, at));
        assertThat(reception.health().stale()).isEqualTo(1);
    }

    @Test
    void wrong_token_wrong_name_and_wrong_topic_are_refused() {
        String words = Signed.words(NOW, "0123456789abcdef", ACK);

        assertRefusedWithoutAWord(Signed.message("anna", Signed.BEN, words));
        assertRefusedWithoutAWord(Signed.message("carl", Signed.ANNA, words));
        assertRefusedWithoutAWord(
                Signed.message("leat/shipyard", "anna", Signed.ANNA, words.getBytes(UTF_8)));
        assertThat(reception.health().unsigned()).isEqualTo(3);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "no json",
                "[]",
                "{}",
                "{\"at\":1767592800,\"nonce\":\"0123456789abcdef\"}",
                "{\"do\":\"ack\",\"alarm\":\"1\",\"nonce\":\"0123456789abcdef\"}",
                "{\"do\":\"ack\",\"alarm\":\"1\",\"at\":1767592800}",
                "{\"do\":\"ack\",\"alarm\":\"1\",\"at\":1767592800,\"nonce\":\"short\"}",
                "{\"do\":\"ack\",\"alarm\":\"1\",\"at\":1767592800,\"nonce\":\"0123456789abcde'\"}",
                "{\"do\":\"ack\",\"alarm\":\"1\",\"at\":\"1767592800\",\"nonce\":\"0123456789abcdef\"}",
                "{\"do\":\"ack\",\"alarm\":\"1\",\"at\":1767592800.5,\"nonce\":\"0123456789abcdef\"}",
                "{\"do\":\"ack\",\"alarm\":\"1\",\"at\":1e400,\"nonce\":\"0123456789abcdef\"}",
                "{\"do\":\"ack\",\"alarm\":1,\"at\":1767592800,\"nonce\":\"0123456789abcdef\"}",
                "{\"do\":\"ack\",\"do\":\"reset\",\"alarm\":\"1\",\"at\":1767592800,\"nonce\":\"0123456789abcdef\"}",
                "{\"do\":\"ack\",\"alarm\":\"1\",\"alarm\":\"1\",\"at\":1767592800,\"nonce\":\"0123456789abcdef\"}",
                "{\"do\":\"ack\",\"alarm\":\"1\",\"at\":1767592800,\"nonce\":\"0123456789abcdef\"} {}",
            })
    void signed_words_that_cannot_be_read_are_refused(String words) {
        assertRefusedWithoutAWord(Signed.message("anna", Signed.ANNA, words));
        assertThat(reception.health().notFollowed()).isEqualTo(1);
    }

    @Test
    void deeply_nested_words_are_refused() {
        String deep = "[".repeat(2_000);

        assertRefusedWithoutAWord(Signed.message("anna", Signed.ANNA, deep));
    }

    @Test
    void message_of_a_megabyte_is_refused_even_if_it_is_signed() {
        byte[] message =
                anna(
                        "\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":\""
                                + "x".repeat(1_000_000)
                                + "\"");

        assertRefusedWithoutAWord(message);
        assertThat(reception.health().oversized()).isEqualTo(1);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2})
    void any_garbage_is_refused_in_the_same_words(long seed) {
        List<String> answers = answersToGarbage(new Random(seed));

        assertThat(answers)
                .as("seed %d", seed)
                .containsOnly("{\"schema\":\"leat.reply/1\",\"to\":\"\",\"answer\":\"refused\"}");
        assertThat(reception.health().unsigned()).isEqualTo(answers.size());
    }

    @Test
    void answers_to_all_who_fail_to_prove_themselves_are_alike() {
        byte[] good = anna(ACK);
        answer(good);
        String words = Signed.words(NOW, "0123456789abcdef", ACK);
        List<byte[]> failures =
                List.of(
                        good,
                        Signed.message("anna", Signed.BEN, words),
                        Signed.message("carl", Signed.ANNA, words),
                        anna(ACK, NOW - 500),
                        Signed.message("anna", Signed.ANNA, "no json"));

        assertThat(failures)
                .extracting(message -> reception.answer(message).replaceAll("[0-9a-f]{64}", "M"))
                .containsOnly("{\"schema\":\"leat.reply/1\",\"to\":\"M\",\"answer\":\"refused\"}");
    }

    @Test
    void hostile_text_is_kept_as_it_is_and_answered_harmlessly() throws IOException {
        String hostile = "'; DROP TABLE alarm; -- \u001b[2J\r\nBcc: x <script> \u202e \u0000";
        String quoted = JSON.writeValueAsString(hostile);
        byte[] kept = anna("\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":" + quoted);
        byte[] refused = anna("\"do\":" + quoted);

        assertThat(answer(kept).path("answer").asText()).isEqualTo("accepted");
        assertThat(waiting())
                .extracting(WaitingInstruction::instruction)
                .containsExactly(
                        new Instruction(
                                NOW * 1_000_000,
                                "anna by MQTT",
                                new Order.Journal(Entry.NOTE, hostile)));
        assertThat(answer(refused).path("reason").asText())
                .contains("DROP TABLE")
                .doesNotContain("\u001b", "\r", "\n", "\u202e", "\u0000");
    }

    @Test
    void store_that_is_gone_is_told_to_one_who_has_signed() throws IOException {
        reception =
                new Reception(
                        settings(), link(), folder.resolve("no.db"), MACHINES, nowMicros::get);

        JsonNode answer = answer(anna(ACK));

        assertThat(answer.path("answer").asText()).isEqualTo("refused");
        assertThat(answer.path("reason").asText()).startsWith("the store does not take it now");
    }

    @Test
    void what_the_broker_had_kept_is_not_even_answered() {
        reception.arrived(anna(ACK), true);
        reception.step();

        assertThat(waiting()).isEmpty();
        assertThat(reception.health().retained()).isEqualTo(1);
    }

    @Test
    void flood_is_dropped_and_counted() {
        flood(100);
        reception.step();

        assertThat(reception.health().overrun()).isEqualTo(84);
        assertThat(reception.health().unsigned()).isEqualTo(1);
    }

    @Test
    void a_signed_one_is_followed_first_however_many_forged_ones_and_copies_came_before() {
        byte[] first = anna(ACK);
        reception.arrived(first, false);
        for (int i = 0; i < 10_000; i++) {
            reception.arrived(Signed.message("anna", Signed.BEN, "forged " + i), false);
            reception.arrived(first, false);
        }
        reception.arrived(anna("\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":\"x\""), false);

        reception.step();
        reception.step();

        assertThat(reception.health().accepted()).isEqualTo(2);
        assertThat(waiting()).hasSize(2);
    }

    @Test
    void what_is_not_signed_is_answered_ten_times_a_second_at_most() {
        flood(100);

        Duration untilNext = reception.step();

        assertThat(untilNext).isBetween(Duration.ofMillis(1), Duration.ofMillis(100));
        assertThat(reception.health().unsigned()).isEqualTo(1);
    }

    private void flood(int messages) {
        for (int i = 0; i < messages; i++) {
            reception.arrived(new byte[10], false);
        }
    }

    private void assertRefusedWithoutAWord(byte[] message) {
        int before = waiting().size();

        JsonNode answer = answer(message);

        assertThat(answer.path("answer").asText()).isEqualTo("refused");
        assertThat(answer.has("reason")).isFalse();
        assertThat(answer.has("instruction")).isFalse();
        assertThat(waiting()).hasSize(before);
    }

    private List<String> answersToGarbage(Random random) {
        List<String> answers = new ArrayList<>();
        for (int i = 0; i < 500; i++) {
            byte[] garbage = new byte[random.nextInt(1_000)];
            random.nextBytes(garbage);
            answers.add(reception.answer(garbage));
        }
        return answers;
    }

    private byte[] anna(String what) {
        return anna(what, NOW);
    }

    private byte[] anna(String what, long atSeconds) {
        nonces++;
        String nonce = "nonce-of-test-" + (100 + nonces);
        return Signed.message("anna", Signed.ANNA, Signed.words(atSeconds, nonce, what));
    }

    private JsonNode answer(byte[] message) {
        try {
            return JSON.readTree(reception.answer(message));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private List<WaitingInstruction> waiting() {
        try (StoreReader reader = StoreReader.open(file)) {
            return reader.waiting();
        }
    }

    private Reception reception() {
        return new Reception(settings(), link(), file, MACHINES, nowMicros::get);
    }

    private static InstructionSettings settings() {
        return new InstructionSettings(
                "broker",
                Signed.TOPIC,
                Signed.TOPIC + "/reply",
                Duration.ofMinutes(2),
                Signed.PEOPLE);
    }

    /** Never started. */
    private static MqttLink link() {
        return new MqttLink(
                new ConnectionSettings.Mqtt(
                        "broker",
                        "tcp://127.0.0.1:1",
                        "leat-test",
                        Optional.of("leat"),
                        Optional.of(new Secret("invented")),
                        Trust.OF_THE_RUNTIME,
                        Optional.empty(),
                        Duration.ofSeconds(15),
                        Duration.ofSeconds(1)),
                "Boatyard");
    }

    @Test
    void message_that_is_too_long_is_counted_as_such_though_only_its_begin_waits() {
        reception.arrived(anna(ACK + ",\"text\":\"" + "x".repeat(100_000) + "\""), false);
        reception.step();

        assertThat(waiting()).isEmpty();
        assertThat(reception.health().oversized()).isEqualTo(1);
    }
}
