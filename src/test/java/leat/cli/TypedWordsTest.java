package leat.cli;

import static java.util.stream.Collectors.joining;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.IntStream;
import leat.Gear;
import leat.files.OddFiles;
import leat.signal.PlainText;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Whatever is typed, or stands in a file: the terminal shows little of it, and obeys none of it.
 */
class TypedWordsTest {

    private static final String CLEARS_THE_SCREEN = "\u001b[2J\u202e\u009b";

    @TempDir Path folder;

    /** {@code !} stands for what drives a terminal. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "!",
                "alarms --!",
                "alarms ! !",
                "alarms --site !",
                "replay !.csv",
                "replay x.csv --start !",
                "replay x.csv --zone !",
                "check !",
                "run !",
                "simulate !",
                "simulate !.yaml",
                "simulate --port=!",
                "ack ! --site !",
                "backtest --limits !"
            })
    void what_was_typed_is_repeated_harmlessly(String command) {
        Ran ran = Ran.leat(command.replace("!", CLEARS_THE_SCREEN).split(" "));

        assertThat(ran.code()).isNotZero();
        assertThat((ran.err() + ran.out()).codePoints())
                .allMatch(point -> point == '\n' || PlainText.isHarmless(point));
    }

    @ParameterizedTest
    @CsvSource(
            delimiterString = "=>",
            textBlock =
                    """
                    chek => There is no command chek. Did you mean check? => leat help
                    alerts => There is no command alerts. Did you mean alarms? => leat help
                    --verison => leat has no option --verison. Did you mean --version? => leat help
                    alarms --jsn => leat alarms has no option --jsn. Did you mean --json? => leat alarms --help
                    startups --machin=jet-1 => leat startups has no option --machin. Did you mean --machine? => leat startups --help
                    sunken => There is no command sunken. => leat help
                    alarms --zzzzz => leat alarms has no option --zzzzz. => leat alarms --help
                    alarms -x => leat alarms has no option -x. => leat alarms --help
                    check a b => leat check takes no further word, such as b. => leat check --help
                    ack => Missing required parameter: 'ALARM' => leat ack --help
                    measure --machines x => Invalid value for option '--machines': 'x' is not an int => leat measure --help
                    """)
    void a_wrong_word_is_two_lines_with_the_nearest_right_one(
            String typed, String wrong, String help) {
        Ran ran = Ran.leat(typed.split(" "));

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err().lines()).containsExactly(wrong, "See: " + help);
    }

    @Test
    void help_lists_the_commands_and_explains_one() {
        assertThat(Ran.leat("help").out()).contains("Usage: leat ", "startups", "Exit codes");
        assertThat(Ran.leat("help", "ack").out()).contains("Usage: leat ack ");
        assertThat(Ran.leat("help").code()).isZero();
    }

    @Test
    void a_long_wrong_word_is_not_repeated_to_its_end() {
        Ran ran = Ran.leat("alarms", "x".repeat(100_000));

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).hasSizeLessThan(5_000);
    }

    /** A note may begin with an at sign; the library would read words from that file. */
    @Test
    @Timeout(value = 20, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void a_word_with_an_at_sign_is_no_file() throws Exception {
        Path pipe = OddFiles.pipe(folder.resolve("pipe"));

        Ran ran = Ran.leat("alarms", "@" + pipe);

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err()).contains("@" + pipe);
    }

    @Test
    void three_thousand_wrong_machines_are_fifty_mistakes_and_a_number() throws IOException {
        String machines =
                IntStream.range(0, 3_000)
                        .mapToObj(i -> "  jet-" + i + ": { chanels: 1 }")
                        .collect(joining("\n"));
        Path site = Files.writeString(folder.resolve("site.yaml"), "machines:\n" + machines);

        Ran ran = Ran.leat("check", site.toString());

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err().lines().filter(line -> line.startsWith(site + ":"))).hasSize(50);
        assertThat(ran.err().lines().toList())
                .contains("and 5953 more", "6003 mistakes; nothing was started.");
        assertThat(ran.err()).hasSizeLessThan(20_000);
    }

    /** Each needs to be looked at once, not once for each other. */
    @Tag(Gear.THOROUGH)
    @Test
    @Timeout(value = 20, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void a_file_full_of_mistakes_is_read_in_seconds() throws IOException {
        String keys =
                IntStream.range(0, 100_000).mapToObj(i -> "k" + i + ": 1").collect(joining("\n"));
        Path site = Files.writeString(folder.resolve("site.yaml"), keys);

        Ran ran = Ran.leat("check", site.toString());

        assertThat(ran.err()).contains("100004 mistakes");
    }

    @Test
    void one_mistake_is_no_longer_than_a_person_reads() throws IOException {
        Path site =
                Files.writeString(
                        folder.resolve("site.yaml"), "? " + "k".repeat(100_000) + "\n: 1");

        Ran ran = Ran.leat("check", site.toString());

        assertThat(ran.err()).contains("5 mistakes").hasSizeLessThan(5_000);
    }

    @Test
    void a_scenario_with_many_mistakes_shows_fifty_of_them() throws IOException {
        String keys = IntStream.range(0, 900).mapToObj(i -> "k" + i + ": 1").collect(joining("\n"));
        Path file = Files.writeString(folder.resolve("own.yaml"), keys);

        Ran ran = Ran.leat("simulate", file.toString());

        assertThat(ran.code()).isEqualTo(2);
        assertThat(ran.err().lines()).hasSize(51).last().asString().matches("and 8\\d\\d more");
    }
}
