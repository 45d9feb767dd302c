package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import leat.HostileText;
import leat.alarm.AlarmState;
import leat.alarm.ServiceChange;
import leat.rule.Grade;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.watch.Outcome;
import leat.words.Language;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every list of a store in which machines, people and notes have names as long as they may be. */
class ListWidthTest {

    private static final String LEARNED = "jet-" + "a".repeat(36);
    private static final String WORN = "jet-" + "b".repeat(36);

    /** Signs that take two columns each, then everything hostile. */
    private static final String PERSON = "\u6f22\u5b57".repeat(20) + HostileText.EACH.get(0);

    private static final String NOTE = "x".repeat(300) + HostileText.WHOLE;

    @TempDir private static Path folder;
    private static StoredSite site;

    @BeforeAll
    static void live() throws IOException {
        site =
                StoredSite.changed(
                        folder,
                        yaml ->
                                yaml.replace("jet-1:", LEARNED + ":")
                                        .replace("jet-2:", WORN + ":")
                                        .replace(
                                                "time_zone: UTC",
                                                "time_zone: America/Argentina/ComodRivadavia"));
        site.saw(LEARNED, BaselineCommandTest.starts(10, 3));
        site.saw(WORN, StoredSite.pressures("worn-booster", "jet-1", StoredSite.SIX));
        long later = StoredSite.SIX + 3_600_000_000L;
        site.saw(
                WORN,
                List.of(
                        new Instruction(
                                later,
                                PERSON,
                                new Order.Journal(
                                        Order.Entry.PUMP_REPLACED, NOTE, "worn-booster"))));
        site.commit(
                (batch, hash) -> {
                    int minute = 0;
                    for (AlarmState state : AlarmState.values()) {
                        for (Grade grade : Grade.values()) {
                            new RaisedAlarm(LEARNED, grade, state, ++minute, PERSON, NOTE)
                                    .into(batch, hash);
                        }
                    }
                    batch.said(
                            LEARNED,
                            1,
                            new Outcome.ServiceChanged(
                                    new ServiceChange(
                                            later,
                                            true,
                                            later + 3_600_000_000L,
                                            PERSON,
                                            NOTE,
                                            Optional.empty())),
                            hash);
                });
    }

    private static List<String> lines(int columns, String command) {
        List<String> words = new ArrayList<>(Arrays.asList(command.split(" ")));
        Ran ran = site.leatAt(columns, words.remove(0), words.toArray(String[]::new));
        assertThat(ran.code()).as(ran.err()).isZero();
        HostileText.assertHarmless(ran.out().replace("\r\n", "\n"));
        return ran.out().lines().toList();
    }

    /** As a terminal shows it: a Chinese sign takes two columns. */
    private static int columns(String line) {
        return line.codePoints().map(c -> Character.isIdeographic(c) ? 2 : 1).sum();
    }

    private static int signs(List<String> lines) {
        return String.join("", lines).replace(" ", "").length();
    }

    private static final String BASELINE = "baseline";

    /** Each list in each language. */
    private static List<String> lists() {
        return Stream.of(Language.values())
                .flatMap(
                        language ->
                                commands().stream().map(list -> list + " --lang " + language.key()))
                .toList();
    }

    private static List<String> commands() {
        return List.of(
                "alarms",
                "alarms --all",
                "alarms --history 1",
                "alarms --health --since 2026-01-05",
                "machines",
                "startups",
                "journal",
                BASELINE,
                "backtest --set level.warning=89psi",
                "why --score");
    }

    @ParameterizedTest
    @MethodSource("lists")
    void no_line_of_a_list_is_wider_than_a_terminal_of_80_columns(String command) {
        assertThat(lines(80, command))
                .hasSizeGreaterThan(1)
                .allSatisfy(line -> assertThat(columns(line)).as(line).isLessThanOrEqualTo(80));
    }

    @ParameterizedTest
    @ValueSource(strings = {"settings", "settings limits.rise", "simulate"})
    void no_line_of_what_leat_knows_by_itself_is_wider_either(String command) {
        assertThat(Ran.leat(command.split(" ")).out().lines())
                .hasSizeGreaterThan(1)
                .allSatisfy(line -> assertThat(columns(line)).as(line).isLessThanOrEqualTo(80));
    }

    /** What a machine's own numbers are has room at 80 columns. */
    private static List<String> cutLists() {
        return lists().stream().filter(list -> !list.startsWith(BASELINE)).toList();
    }

    @ParameterizedTest
    @MethodSource("cutLists")
    void terminal_of_200_columns_shows_more_and_no_line_is_wider_than_that(String command) {
        List<String> wide = lines(200, command);

        assertThat(signs(wide)).isGreaterThan(signs(lines(80, command)));
        assertThat(wide)
                .allSatisfy(line -> assertThat(columns(line)).as(line).isLessThanOrEqualTo(200));
    }

    @Test
    void wide_shows_every_name_in_full_however_narrow_the_terminal() {
        assertThat(String.join(" ", lines(80, "alarms"))).contains("--wide");
        assertThat(lines(80, "alarms --wide")).anyMatch(line -> line.contains(" " + LEARNED + " "));
        assertThat(lines(80, "journal --wide")).anyMatch(line -> line.contains(" " + WORN + " "));
        assertThat(lines(80, "startups --wide")).anyMatch(line -> line.contains(WORN + "/1 "));
    }
}
