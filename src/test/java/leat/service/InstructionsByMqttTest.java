package leat.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import leat.Gear;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.alarm.ServiceChange;
import leat.config.LoadedSite;
import leat.config.SiteFile;
import leat.instruct.ReceptionHealth;
import leat.instruct.Signed;
import leat.interop.Mosquitto;
import leat.interop.Passwords;
import leat.interop.Peer;
import leat.rule.Rule;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import leat.store.JournalLine;
import leat.store.MachineInService;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import leat.words.AlarmWords;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The daemon at a mosquitto that asks for passwords; the senders are mosquitto_pub. */
@Timeout(120)
class InstructionsByMqttTest {

    private static final String[] LOGIN = {"-u", "leat", "-P", "invented"};
    private static final String REPLY = Signed.TOPIC + "/reply";
    private static final String ACCEPTED = "\"answer\":\"accepted\"";
    private static final String REFUSED = "\"answer\":\"refused\"}";

    private static final long HOUR = 3_600_000_000L;

    @TempDir Path folder;

    private Mosquitto broker;
    private Mosquitto.Heard replies;
    private Daemon daemon;

    @BeforeEach
    void start() throws Exception {
        Path passwords = Passwords.of(folder.resolve("passwords"), "leat");
        broker = new Mosquitto(folder, "allow_anonymous false", "password_file " + passwords);
        broker.start();
        replies = broker.listen(REPLY, LOGIN);
        await().until(
                        () -> {
                            broker.publish(REPLY, "anybody there?", LOGIN);
                            return !replies.lines().isEmpty();
                        });
        daemon = daemon();
    }

    @AfterEach
    void close() {
        daemon.close();
        broker.close();
    }

    @Test
    void journal_entry_that_a_person_signed_stands_in_the_journal() throws Exception {
        send(signed("\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":\"strainer cleaned\""));

        awaitReplies(1);
        assertThat(reply(0)).contains(ACCEPTED, "\"instruction\":1");
        await().until(() -> journal().size() == 1);
        assertThat(journal().get(0).by()).isEqualTo("anna by MQTT");
        assertThat(journal().get(0).entry().text()).isEqualTo("strainer cleaned");
    }

    @Test
    void acknowledgement_by_mqtt_leaves_who_and_when_in_the_history_of_the_alarm()
            throws Exception {
        await().atMost(Duration.ofSeconds(20)).until(() -> !alarms().isEmpty());

        send(signed("\"do\":\"ack\",\"alarm\":\"1\""));

        await().until(() -> state(1) == AlarmState.ACKNOWLEDGED);
        assertThat(reply(0)).contains(ACCEPTED);
        List<StoredAlarm> history = history(1);
        assertThat(history.get(history.size() - 1).change().by()).isEqualTo("anna by MQTT");
    }

    @Tag(Gear.THOROUGH)
    @Test
    void alarm_is_shelved_and_brought_back_and_the_history_says_who_when_and_why()
            throws Exception {
        await().atMost(Duration.ofSeconds(20)).until(() -> !alarms().isEmpty());
        long before = nowMicros();

        send(signed("\"do\":\"shelve\",\"alarm\":\"1\",\"for\":\"8h\",\"why\":\"cable on order\""));
        await().until(() -> state(1) == AlarmState.SHELVED);
        AlarmChange shelved = last(1);
        send(signed("\"do\":\"unshelve\",\"alarm\":\"1\""));

        await().until(() -> state(1) == AlarmState.UNACKNOWLEDGED);
        assertThat(shelved.by()).isEqualTo("anna by MQTT");
        assertThat(shelved.notes().why()).isEqualTo("cable on order");
        assertThat(shelved.atMicros()).isBetween(before, nowMicros());
        assertThat(shelved.notes().shelvedUntilMicros().orElseThrow() - before)
                .isBetween(8 * HOUR, 8 * HOUR + 60_000_000);
        assertThat(last(1).event()).isEqualTo(AlarmEvent.UNSHELVED);
        assertThat(last(1).by()).isEqualTo("anna by MQTT");
    }

    @Tag(Gear.THOROUGH)
    @Test
    void alarm_is_taken_out_of_service_and_put_back() throws Exception {
        await().atMost(Duration.ofSeconds(20)).until(() -> !alarms().isEmpty());
        String order = "\"do\":\"out-of-service\",\"alarm\":\"1\",\"turn\":";

        send(signed(order + "\"on\",\"why\":\"wrong wiring\""));
        await().until(() -> state(1) == AlarmState.OUT_OF_SERVICE);
        AlarmChange out = last(1);
        send(signed(order + "\"off\""));

        await().until(() -> state(1) == AlarmState.UNACKNOWLEDGED);
        assertThat(out.by()).isEqualTo("anna by MQTT");
        assertThat(out.notes().why()).isEqualTo("wrong wiring");
        assertThat(last(1).event()).isEqualTo(AlarmEvent.RESTORED);
        assertThat(last(1).by()).isEqualTo("anna by MQTT");
    }

    @Test
    void service_begins_and_ends_and_the_journal_says_who_and_when() throws Exception {
        long before = nowMicros();
        String order = "\"do\":\"service\",\"machine\":\"jet-1\",\"turn\":";

        send(signed(order + "\"on\",\"text\":\"new seal\""));
        await().until(() -> inService().size() == 1);
        ServiceChange begun = inService().get(0).change();
        send(signed(order + "\"off\""));

        await().until(() -> inService().isEmpty());
        assertThat(begun.by()).isEqualTo("anna by MQTT");
        assertThat(begun.why()).isEqualTo("new seal");
        assertThat(begun.atMicros()).isBetween(before, nowMicros());
        await().until(() -> journal().size() == 2);
        assertThat(journal())
                .extracting(line -> line.entry().entry() + " " + line.by())
                .containsExactly("SERVICE_OFF anna by MQTT", "SERVICE_ON anna by MQTT");
    }

    @Tag(Gear.THOROUGH)
    @Test
    void latched_alarm_is_let_go_once_it_is_acknowledged_and_reset() throws Exception {
        AtomicReference<String> inlet = new AtomicReference<>("2.0");
        broker.startSensor("yard/running", () -> "1", LOGIN);
        broker.startSensor("yard/boosted", () -> "60.0", LOGIN);
        AtomicInteger flicker = new AtomicInteger();
        broker.startSensor("yard/inlet", () -> inlet.get() + flicker.getAndIncrement() % 2, LOGIN);
        await().atMost(Duration.ofSeconds(20)).until(() -> starved().isPresent());
        long starved = starved().orElseThrow().number();
        inlet.set("40.0");
        await().atMost(Duration.ofSeconds(20))
                .until(() -> last(starved).event() == AlarmEvent.LATCHED);

        send(signed("\"do\":\"reset\",\"alarm\":\"" + starved + "\""));
        awaitReplies(1);
        send(signed("\"do\":\"ack\",\"alarm\":\"" + starved + "\""));
        await().until(() -> last(starved).event() == AlarmEvent.ACKNOWLEDGED);
        send(signed("\"do\":\"reset\",\"alarm\":\"" + starved + "\""));

        await().until(() -> last(starved).event() == AlarmEvent.RESET);
        assertThat(state(starved)).isEqualTo(AlarmState.NORMAL);
        assertThat(last(starved).by()).isEqualTo("anna by MQTT");
        assertThat(fate(1).reason().map(AlarmWords.ENGLISH::refusal))
                .contains("nobody has acknowledged it: acknowledge it first");
    }

    @Test
    void order_that_cannot_be_followed_is_told_why_and_changes_nothing() throws Exception {
        await().atMost(Duration.ofSeconds(20)).until(() -> !alarms().isEmpty());

        send(signed("\"do\":\"shelve\",\"alarm\":\"1\",\"for\":\"25h\",\"why\":\"x\""));
        awaitReplies(1);
        send(signed("\"do\":\"service\",\"machine\":\"jet-9\",\"turn\":\"on\""));
        awaitReplies(2);

        assertThat(reply(0)).contains("can be shelved for 24 h at a time").doesNotContain(ACCEPTED);
        assertThat(reply(1)).contains("there is no machine jet-9").doesNotContain(ACCEPTED);
        assertThat(state(1)).isEqualTo(AlarmState.UNACKNOWLEDGED);
        assertThat(health().notFollowed()).isEqualTo(2);
    }

    @Test
    void replay_is_refused_and_refused_again_after_a_restart() throws Exception {
        byte[] message = signed("\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":\"once\"");
        send(message);
        awaitReplies(1);

        send(message);
        awaitReplies(2);
        daemon.close();
        daemon = daemon();
        send(message);
        awaitReplies(3);

        assertThat(reply(0)).contains(ACCEPTED);
        assertThat(reply(1)).endsWith(REFUSED);
        assertThat(reply(2)).endsWith(REFUSED);
        await().until(() -> journal().size() == 1);
        assertThat(health().repeated()).isEqualTo(1);
    }

    @Test
    void garbage_a_megabyte_and_wrong_tokens_change_nothing_and_the_next_one_is_followed()
            throws Exception {
        byte[] garbage = new byte[2_000];
        new Random(5).nextBytes(garbage);
        send(garbage);
        send(new byte[1_000_000]);
        send(Signed.message("anna", Signed.BEN, words("\"do\":\"ack\",\"alarm\":\"1\"")));
        broker.publish(Signed.TOPIC, "v1 anna \u001b[2J <script>", LOGIN);
        awaitReplies(4);

        send(signed("\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":\"sound\""));

        awaitReplies(5);
        assertThat(answers().subList(0, 4)).allMatch(line -> line.endsWith(REFUSED));
        assertThat(reply(4)).contains(ACCEPTED);
        await().until(() -> journal().size() == 1);
        assertThat(health()).isEqualTo(new ReceptionHealth(1, 0, 3, 0, 0, 1, 0, 0));
    }

    @Tag(Gear.THOROUGH)
    @Test
    void signed_ones_are_answered_in_a_flood_of_forged_ones() throws Exception {
        byte[] message =
                Signed.message("anna", Signed.BEN, words("\"do\":\"ack\",\"alarm\":\"1\""));
        Path forged = Files.write(folder.resolve("forged"), message);
        Process flood = broker.flood(Signed.TOPIC, forged, 200_000, LOGIN);
        try {
            await().until(() -> health().suspicious() > 1_000);
            for (int i = 1; i <= 5; i++) {
                int entries = i;
                send(signed("\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":\"sound\""));
                await().atMost(Duration.ofSeconds(5))
                        .until(
                                () ->
                                        answers().stream()
                                                        .filter(line -> line.contains(ACCEPTED))
                                                        .count()
                                                == entries);
            }
            assertThat(flood.isAlive()).as("the flood goes on").isTrue();
        } finally {
            flood.destroyForcibly();
        }
        await().until(() -> journal().size() == 5);
    }

    @Test
    void message_on_another_topic_is_not_heard() throws Exception {
        Path file = Files.write(folder.resolve("other"), signed("\"do\":\"ack\",\"alarm\":\"1\""));
        broker.publishFile("leat/boatyard/instruction", file, LOGIN);
        broker.publishFile(Signed.TOPIC + "/more", file, LOGIN);

        send(signed("\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":\"sound\""));

        awaitReplies(1);
        assertThat(reply(0)).contains(ACCEPTED);
        assertThat(health().suspicious()).isZero();
    }

    @Test
    void retained_message_is_not_followed_when_leat_comes() throws Exception {
        daemon.close();
        Path file =
                Files.write(
                        folder.resolve("kept"),
                        signed("\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":\"kept\""));
        broker.publishFile(Signed.TOPIC, file, "-u", "leat", "-P", "invented", "-r");

        daemon = daemon();

        await().until(() -> health().retained() == 1);
        assertThat(answers()).isEmpty();
        assertThat(journal()).isEmpty();
    }

    @Test
    void what_its_page_says_is_enough_to_sign() throws Exception {
        Files.writeString(folder.resolve("anna.token"), Signed.ANNA + "\n");
        Path page = Path.of("src", "docs", "instructions.md");
        String text = Files.readString(page).replace("\r\n", "\n");
        String example = text.split("<!-- signing -->\n```sh\n")[1].split("```")[0];
        ProcessBuilder shell =
                new ProcessBuilder(Peer.require("sh").toString(), "-e", "-c", example)
                        .directory(folder.toFile());
        Peer.require("openssl");
        shell.environment()
                .put("BROKER", "-h 127.0.0.1 -p " + broker.port() + " -u leat -P invented");

        Process process = shell.start();

        assertThat(process.waitFor(20, TimeUnit.SECONDS)).isTrue();
        awaitReplies(1);
        assertThat(reply(0)).contains(ACCEPTED);
        await().until(() -> journal().size() == 1);
        assertThat(journal().get(0).entry().text()).isEqualTo("strainer cleaned");
    }

    private Daemon daemon() throws IOException {
        Path file = Files.writeString(folder.resolve("site.yaml"), site());
        Map<String, String> environment =
                Map.of("PASSWORD", "invented", "ANNA", Signed.ANNA, "BEN", Signed.BEN);
        LoadedSite loaded = SiteFile.load(file, name -> Optional.ofNullable(environment.get(name)));
        assertThat(loaded.problems()).isEmpty();
        Daemon made = new Daemon(loaded.site().orElseThrow(), "test", text -> Optional.empty());
        made.start();
        await().until(() -> made.health().sources().get(0).connected());
        return made;
    }

    private String site() {
        return """
        site: { name: Boatyard }
        connections:
          broker:
            mqtt:
              url: %s
              client_id: leat-test
              user: leat
              password: { env: PASSWORD }
        limits:
          signal: { missing: 1 s }
          inlet: { latch: yes, arm: 0 s, critical_delay: 0 s, off_delay: 0 s }
        machines:
          jet-1:
            channels:
              inlet:
                from: broker
                topic: { name: yard/inlet, silent_after: 1 s }
                unit: psi
              boosted:
                from: broker
                topic: { name: yard/boosted, silent_after: 1 s }
                unit: psi
              running:
                from: broker
                topic: { name: yard/running }
        tell:
          log: { by: { log: { } } }
        instructions:
          connection: broker
          topic: %s
          people:
            anna: { token: { env: ANNA } }
            ben: { token: { env: BEN } }
        """
                .formatted(broker.url(), Signed.TOPIC);
    }

    private void send(byte[] message) throws IOException, InterruptedException {
        Path file = Files.write(folder.resolve("message"), message);
        broker.publishFile(Signed.TOPIC, file, LOGIN);
    }

    private static byte[] signed(String what) {
        return Signed.message("anna", Signed.ANNA, words(what));
    }

    private static String words(String what) {
        return Signed.words(Instant.now().getEpochSecond(), UUID.randomUUID().toString(), what);
    }

    private void awaitReplies(int count) {
        await().atMost(Duration.ofSeconds(15)).until(() -> answers().size() == count);
    }

    /** The answers of leat, not what the test said to see whether it hears. */
    private List<String> answers() {
        return replies.lines().stream().filter(line -> line.contains("leat.reply/1")).toList();
    }

    private String reply(int index) {
        return answers().get(index);
    }

    private ReceptionHealth health() {
        return daemon.health().instructions().orElseThrow();
    }

    private List<JournalLine> journal() {
        try (StoreReader reader = StoreReader.open(database())) {
            return reader.journal(Optional.of("jet-1"), 10);
        }
    }

    private List<StoredAlarm> alarms() {
        try (StoreReader reader = StoreReader.open(database())) {
            return reader.standingAlarms();
        }
    }

    private AlarmState state(long number) {
        return last(number).to();
    }

    private AlarmChange last(long number) {
        List<StoredAlarm> history = history(number);
        return history.get(history.size() - 1).change();
    }

    private Optional<StoredAlarm> starved() {
        return alarms().stream().filter(a -> a.change().finding().rule() == Rule.INLET).findFirst();
    }

    private List<MachineInService> inService() {
        try (StoreReader reader = StoreReader.open(database())) {
            return reader.inService();
        }
    }

    private InstructionFate fate(long number) {
        try (InstructionBox box = InstructionBox.open(database())) {
            return box.fate(number);
        }
    }

    private static long nowMicros() {
        return ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now());
    }

    private List<StoredAlarm> history(long number) {
        try (StoreReader reader = StoreReader.open(database())) {
            String id = reader.alarm(Long.toString(number)).orElseThrow().change().alarmId();
            return reader.alarmHistory(id);
        }
    }

    private Path database() {
        return folder.resolve("data/leat.db");
    }
}
