package leat.config;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import leat.files.OddFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BrokenTextTest {

    @TempDir Path folder;

    private List<Problem> load(byte[] bytes) throws IOException {
        Path file = Files.write(folder.resolve("site.yaml"), bytes);
        return SiteFile.load(file, GoodSite::environment).problems();
    }

    private List<Problem> load(String text) throws IOException {
        return load(text.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void every_tab_that_indents_is_reported_at_its_line() throws IOException {
        List<Problem> problems = load("site:\n  name: Boatyard\n\ttime_zone: UTC\n \tstore:\n");

        assertThat(problems).extracting(Problem::line).containsExactly(3, 4);
        assertThat(problems).extracting(Problem::column).containsExactly(1, 2);
        assertThat(problems.get(0).toString()).contains("a tab", "spaces");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "\n\n", "# only a comment\n", "---\n", "null\n", "---\n...\n"})
    void an_empty_file_is_said_to_be_empty(String text) throws IOException {
        List<Problem> problems = load(text);

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).what()).isEqualTo("the file is empty");
        assertThat(problems.get(0).allowed()).contains("site, store, connections");
    }

    @ParameterizedTest
    @ValueSource(strings = {"just words", "[ 1, 2 ]", "- site", "42"})
    void a_file_that_is_no_block_of_keys_is_refused_at_its_start(String text) throws IOException {
        List<Problem> problems = load(text);

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).line()).isEqualTo(1);
        assertThat(problems.get(0).allowed()).startsWith("a block of keys: site");
    }

    @Test
    void bytes_that_are_not_utf_8_are_reported_where_they_stand() throws IOException {
        List<Problem> problems =
                load("site:\n  name: Bootsb\u00fccher\n".getBytes(StandardCharsets.ISO_8859_1));

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).toString()).contains("site.yaml:2:15: this is not UTF-8");
    }

    @Test
    void a_file_in_utf_16_is_refused() throws IOException {
        List<Problem> problems = load(GoodSite.TEXT.getBytes(StandardCharsets.UTF_16));

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).what()).contains("not UTF-8");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "site: { name: Boatyard",
                "site:\n  name: \"Boatyard\n",
                "site:\n   name: a\n  time_zone: UTC\n",
                "site\n  name: a\n",
                "site: *nowhere\n",
                "a: 1\n---\nb: 2\n",
                "site: {\u0007}",
                "%YAML 9.9\n---\na: 1\n",
            })
    void what_is_not_yaml_is_one_problem_with_a_line_and_no_stack_trace(String text)
            throws IOException {
        List<Problem> problems = load(text);

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).line()).isPositive();
        assertThat(problems.get(0).toString())
                .doesNotContain("Exception", "snakeyaml", "\tat ")
                .hasLineCount(2);
    }

    @Test
    void brackets_without_end_do_not_overflow_the_stack() throws IOException {
        List<Problem> problems = load("site: " + "[".repeat(100_000));

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).what()).contains("too deep");
    }

    @Test
    void a_part_that_holds_itself_is_refused_without_going_round_for_ever() throws IOException {
        List<Problem> problems = load("site: &a { name: *a }\nmachines: &b { jet-1: *b }\n");

        assertThat(problems).isNotEmpty();
    }

    @Test
    void a_file_that_is_not_there_or_is_a_folder_is_a_problem_without_a_line() throws IOException {
        Path missing = folder.resolve("nowhere.yaml");

        Problem absent = SiteFile.load(missing, GoodSite::environment).problems().get(0);
        Problem directory = SiteFile.load(folder, GoodSite::environment).problems().get(0);

        assertThat(absent.toString()).startsWith(missing + ": there is no such file");
        assertThat(directory.toString()).startsWith(folder + ": this is a folder");
    }

    @Test
    @Timeout(value = 20, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void a_pipe_or_a_device_is_no_site_file() throws Exception {
        Path pipe = OddFiles.pipe(folder.resolve("pipe"));

        Problem waits = SiteFile.load(pipe, GoodSite::environment).problems().get(0);
        Problem ends = SiteFile.load(OddFiles.ZEROS, GoodSite::environment).problems().get(0);

        assertThat(waits.toString()).startsWith(pipe + ": this is a pipe");
        assertThat(ends.toString()).startsWith("/dev/zero: this is a device");
    }

    /** Whatever is done to the text: problems with a place, or a site; never an exception. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void no_damage_to_the_text_throws(long seed) {
        Random random = new Random(seed);
        for (int round = 0; round < 700; round++) {
            String text = GoodSite.TEXT;
            for (int i = random.nextInt(4); i >= 0; i--) {
                text = damaged(text, random);
            }
            try {
                LoadedSite loaded = SiteFile.archived(text);
                assertThat(loaded.problems()).allMatch(p -> p.line() > 0 && p.column() > 0);
            } catch (RuntimeException | StackOverflowError e) {
                fail("seed " + seed + ", round " + round + ":\n" + text, e);
            }
        }
    }

    private static String damaged(String text, Random random) {
        String signs = "{}[]:,#&*!|>'\"%@`-? \t\n\r\u0000\uFEFF\u2028~0.e9<=\ud83d";
        StringBuilder damaged = new StringBuilder(text);
        int at = random.nextInt(text.length());
        int end = Math.min(text.length(), at + 1 + random.nextInt(20));
        char sign = signs.charAt(random.nextInt(signs.length()));
        switch (random.nextInt(4)) {
            case 0 -> damaged.delete(at, end);
            case 1 -> damaged.insert(at, sign);
            case 2 -> damaged.setCharAt(at, sign);
            default -> damaged.insert(random.nextInt(text.length()), text.substring(at, end));
        }
        return damaged.toString();
    }

    @ParameterizedTest
    @ValueSource(longs = {11, 12})
    void no_garbage_of_bytes_throws(long seed) throws IOException {
        Random random = new Random(seed);
        for (int round = 0; round < 200; round++) {
            byte[] bytes = new byte[random.nextInt(300)];
            random.nextBytes(bytes);

            List<Problem> problems = load(bytes);

            assertThat(problems).as("seed %d round %d", seed, round).isNotEmpty();
        }
    }
}
