package leat.instruct;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import leat.config.MachineSettings;
import leat.diagnose.Answer;
import leat.diagnose.Check;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.store.InstructionBox;
import leat.store.OneAlarm;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What may be asked for at all, by either way; the store has one alarm of jet-1. */
class RequestsTest {

    private static final long NOW = 1_767_592_800_000_000L;
    private static final long HOUR = 3_600_000_000L;
    private static final String ID = OneAlarm.ID;
    private static final String LONG = "x".repeat(Requests.LONGEST_TEXT);
    private static final List<MachineSettings> TWO_HOURS =
            List.of(
                    new MachineSettings(
                            "jet-1",
                            List.of(),
                            Limits.with(Map.of(Limit.ALARM_LONGEST_HOLD, 7_200.0))),
                    new MachineSettings("jet-2", List.of(), Limits.DEFAULTS));

    @TempDir private Path folder;

    private InstructionBox box;

    @BeforeEach
    void open() {
        OneAlarm.store(folder.resolve("leat.db"));
        box = InstructionBox.open(folder.resolve("leat.db"));
    }

    @AfterEach
    void close() {
        box.close();
    }

    @Test
    void each_request_about_an_alarm_names_who_when_and_the_id() throws Refused {
        Requests kim = kim();

        assertThat(kim.about("1", Order.Acknowledge::new))
                .isEqualTo(of(new Instruction(NOW, "Kim", new Order.Acknowledge(ID))));
        assertThat(kim.about(ID, Order.Reset::new))
                .isEqualTo(of(new Instruction(NOW, "Kim", new Order.Reset(ID))));
        assertThat(kim.about("1", Order.Unshelve::new))
                .isEqualTo(of(new Instruction(NOW, "Kim", new Order.Unshelve(ID))));
        assertThat(kim.outOfService("1", false, ""))
                .isEqualTo(of(new Instruction(NOW, "Kim", new Order.Restore(ID))));
        assertThat(kim.outOfService("1", true, "wrong"))
                .isEqualTo(of(new Instruction(NOW, "Kim", new Order.Remove(ID, "wrong"))));
        assertThat(kim.shelve("1", "2 h", "gauge"))
                .isEqualTo(
                        of(
                                new Instruction(
                                        NOW,
                                        "Kim",
                                        new Order.Shelve(ID, NOW + 2 * HOUR, "gauge"))));
    }

    @Test
    void each_request_about_a_machine_is_an_entry_of_its_journal() throws Refused {
        Requests kim = kim();

        assertThat(kim.service("jet-1", "on", "seal")).isEqualTo(entry(Entry.SERVICE_ON, "seal"));
        assertThat(kim.service("jet-1", "off", "")).isEqualTo(entry(Entry.SERVICE_OFF, ""));
        assertThat(kim.journal("jet-1", Entry.NOTE, LONG, "")).isEqualTo(entry(Entry.NOTE, LONG));
        assertThat(kim.journal("jet-1", Entry.SERVICED, "", ""))
                .isEqualTo(entry(Entry.SERVICED, ""));
        assertThat(kim.journal("jet-1", Entry.LEARN, "sound", ""))
                .isEqualTo(entry(Entry.LEARN, "sound"));
    }

    @Test
    void what_was_found_is_kept_with_what_was_done_and_may_stand_without_a_word() throws Refused {
        assertThat(kim().journal("jet-1", Entry.PUMP_REPLACED, "", "worn-booster"))
                .isEqualTo(found(Entry.PUMP_REPLACED, "", "worn-booster"));
        assertThat(kim().journal("jet-1", Entry.NOTE, "", "healthy"))
                .isEqualTo(found(Entry.NOTE, "", "healthy"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"worn", "Worn-Booster", "unknown", "recovers", "worn_booster", " "})
    void cause_that_is_none_is_refused_with_all_that_there_are(String word) {
        assertThat(refused(() -> kim().journal("jet-1", Entry.PUMP_REPLACED, "", word)))
                .hasMessage(
                        "'"
                                + word
                                + "' is no cause; known: healthy, worn-booster, not-turning,"
                                + " coupling-slips, weak-supply, supply-shut, strainer-clogged,"
                                + " valve-part-open, valve-slow, valve-leaks, filters-clogged,"
                                + " set-low, set-high, regulator-sticking, air, external-leak,"
                                + " inlet-offset, boosted-offset, stuck, open-loop, loose-loop,"
                                + " swapped, configuration");
    }

    @ParameterizedTest
    @ValueSource(strings = {"jet-1", "jet-1/17", "1", ID})
    void answer_is_about_a_machine_one_of_its_starts_or_an_alarm_of_it(String about)
            throws Refused {
        assertThat(kim().answer(about, "stays-low", "tried twice", List.of()))
                .isEqualTo(found(Entry.ANSWER, "tried twice", "stays-low"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"2", "jet-9", "jet-1/x", ""})
    void answer_about_what_is_not_there_is_refused(String about) {
        Refused refused = refused(() -> kim().answer(about, "stays-low", "", List.of()));

        assertThat(refused)
                .hasMessage(
                        "there is no machine and no alarm " + about + "; machines: jet-1, jet-2");
        assertThat(refused.isAbsent()).isTrue();
    }

    @Test
    void answer_to_a_startup_of_an_unknown_machine_is_refused() {
        assertThat(refused(() -> kim().answer("jet-9/1", "stays-low", "", List.of())))
                .hasMessage("there is no machine jet-9; known: jet-1, jet-2");
    }

    @Test
    void answer_that_is_none_is_refused_with_those_that_are_asked_for_first() {
        List<Answer> asked = Check.JET_OFF.answers();

        assertThat(refused(() -> kim().answer("jet-1", "maybe", "", asked)).getMessage())
                .startsWith(
                        "'maybe' is no answer; asked for now: recovers, stays-low; of other"
                                + " checks: shaft-turns, shaft-wrong, ");
        assertThat(refused(() -> kim().answer("jet-1", "maybe", "", List.of())).getMessage())
                .startsWith("'maybe' is no answer; known: recovers, stays-low, shaft-turns, ");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "soon", "8", "8m", "-8h", "0h", "0.0001 h", "1e3 s", "8h ago"})
    void time_that_is_none_is_refused_with_what_is_allowed(String time) {
        Refused refused = refused(() -> kim().shelve("1", time, "gauge"));

        assertThat(refused.getMessage())
                .isEqualTo(
                        "'"
                                + time
                                + "' is no length of time; allowed is a number with s, min, h, d"
                                + " or w, such as 30min or 8h");
        assertThat(refused.isAbsent()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"7200.001 s", "121 min", "1d", "999999w"})
    void shelf_longer_than_the_machine_allows_is_refused(String time) {
        assertThat(refused(() -> kim().shelve("1", time, "gauge")))
                .hasMessage(
                        "an alarm of jet-1 can be shelved for 2 h at a time (alarm.longest_hold in"
                                + " site.yaml)");
    }

    @Test
    void without_a_configuration_the_longest_shelf_is_for_the_watch_to_say() throws Refused {
        Requests lee = new Requests(box, List.of(), "Lee", NOW);

        assertThat(((Order.Shelve) lee.shelve("1", "1d", "x").instruction().order()).untilMicros())
                .isEqualTo(NOW + 24 * HOUR);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "\n\t"})
    void reason_that_is_blank_is_refused(String why) {
        String words = "say why, such as \"waiting for the new gauge\"";

        assertThat(refused(() -> kim().shelve("1", "1h", why))).hasMessage(words);
        assertThat(refused(() -> kim().outOfService("1", true, why))).hasMessage(words);
        assertThat(refused(() -> kim().journal("jet-1", Entry.LEARN, why, ""))).hasMessage(words);
        assertThat(refused(() -> kim().journal("jet-1", Entry.NOTE, why, "")))
                .hasMessage("say what was done: the text is empty");
    }

    @Test
    void reason_for_putting_back_is_refused_and_not_lost() {
        assertThat(refused(() -> kim().outOfService("1", false, "mended")))
                .hasMessage("no reason is kept of an alarm that is put back; leave it out");
    }

    @Test
    void text_that_is_too_long_is_refused_and_not_cut() {
        String longer = LONG + "x";
        String words = " is too long: 1001 characters, at most 1000; nothing was written down";

        assertThat(refused(() -> kim().shelve("1", "1h", longer))).hasMessage("the reason" + words);
        assertThat(refused(() -> kim().outOfService("1", true, longer)))
                .hasMessage("the reason" + words);
        assertThat(refused(() -> kim().journal("jet-1", Entry.LEARN, longer, "")))
                .hasMessage("the reason" + words);
        assertThat(refused(() -> kim().journal("jet-1", Entry.NOTE, longer, "")))
                .hasMessage("the text" + words);
        assertThat(refused(() -> kim().service("jet-1", "on", longer)))
                .hasMessage("the text" + words);
    }

    @ParameterizedTest
    @ValueSource(strings = {"\ud83d", "\udca7 x", "\udca7\ud83d"})
    void half_a_character_which_no_message_can_carry_is_refused(String half) throws Refused {
        String words = " holds half a character; nothing was written down";

        assertThat(refused(() -> new Requests(box, TWO_HOURS, half, NOW)))
                .hasMessage("the name of who says so" + words);
        assertThat(refused(() -> kim().outOfService("1", true, half)))
                .hasMessage("the reason" + words);
        assertThat(refused(() -> kim().service("jet-1", "on", half)))
                .hasMessage("the text" + words);
        assertThat(kim().service("jet-1", "on", "\ud83d\udca7").machine()).isEqualTo("jet-1");
    }

    @Test
    void nobody_and_a_name_that_is_too_long_are_refused() {
        assertThat(refused(() -> new Requests(box, TWO_HOURS, " ", NOW)))
                .hasMessage("say who it is");
        assertThat(refused(() -> new Requests(box, TWO_HOURS, "x".repeat(81), NOW)))
                .hasMessage(
                        "the name of who says so is too long: 81 characters, at most 80; nothing"
                                + " was written down");
    }

    @Test
    void alarm_that_is_not_there_is_refused() {
        String words = "there is no alarm 2";

        assertThat(refused(() -> kim().about("2", Order.Acknowledge::new))).hasMessage(words);
        assertThat(refused(() -> kim().about("2", Order.Reset::new))).hasMessage(words);
        assertThat(refused(() -> kim().about("2", Order.Unshelve::new))).hasMessage(words);
        assertThat(refused(() -> kim().shelve("2", "1h", "x"))).hasMessage(words);
        assertThat(refused(() -> kim().outOfService("2", true, "x"))).hasMessage(words);
        assertThat(refused(() -> kim().outOfService("2", false, ""))).hasMessage(words);
        assertThat(refused(() -> kim().about("2", Order.Acknowledge::new)).isAbsent()).isTrue();
    }

    @Test
    void machine_of_neither_the_site_nor_without_one_the_store_is_refused() throws Refused {
        Requests lee = new Requests(box, List.of(), "Lee", NOW);

        assertThat(kim().service("jet-2", "on", "").machine()).isEqualTo("jet-2");
        assertThat(lee.service("jet-1", "on", "").machine()).isEqualTo("jet-1");
        assertThat(refused(() -> kim().service("jet-9", "on", "")))
                .hasMessage("there is no machine jet-9; known: jet-1, jet-2");
        assertThat(refused(() -> lee.journal("jet-2", Entry.NOTE, "x", "")))
                .hasMessage("there is no machine jet-2; known: jet-1");
        assertThat(refused(() -> lee.journal("jet-2", Entry.NOTE, "x", "")).isAbsent()).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "On", "on ", "maybe"})
    void turn_that_is_neither_on_nor_off_is_refused(String turn) {
        assertThat(refused(() -> kim().service("jet-1", turn, "")))
                .hasMessage("say on or off, not '" + turn + "'");
    }

    @Test
    void refusal_quotes_hostile_words_harmlessly() {
        Refused refused =
                refused(() -> kim().about("\u001b[2J\r\n\u202e" + LONG, Order.Acknowledge::new));

        assertThat(refused.getMessage()).startsWith("there is no alarm \\u{1b}[2J\\r\\n\\u{202e}");
        assertThat(refused.getMessage()).hasSizeLessThanOrEqualTo(300);
    }

    private Requests kim() throws Refused {
        return new Requests(box, TWO_HOURS, "Kim", NOW);
    }

    private static Request of(Instruction instruction) {
        return new Request("jet-1", instruction);
    }

    private static Request entry(Entry entry, String text) {
        return of(new Instruction(NOW, "Kim", new Order.Journal(entry, text)));
    }

    private static Request found(Entry entry, String text, String found) {
        return of(new Instruction(NOW, "Kim", new Order.Journal(entry, text, found)));
    }

    private static Refused refused(ThrowingCallable request) {
        Refused refused = catchThrowableOfType(Refused.class, request);
        assertThat(refused).as("not refused").isNotNull();
        return refused;
    }
}
