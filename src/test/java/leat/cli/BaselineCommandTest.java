package leat.cli;

import static leat.cli.Ran.leat;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.store.StoreReader;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A machine's own baseline as people see it, on the store of two invented machines: jet-1 has
 * learned its baseline in ten starts and then lost pressure in three; jet-2 has had three starts.
 */
class BaselineCommandTest {

    private static final long SIX = StoredSite.SIX;
    private static final long STEP = 50_000;
    private static final ObjectMapper MAPPER = new ObjectMapper();

    @TempDir static Path folder;
    private static StoredSite site;

    @BeforeAll
    static void live() throws IOException {
        site = StoredSite.in(folder).saw("jet-1", starts(10, 3)).saw("jet-2", starts(3, 0));
    }

    /** Starts to 101 psi, each with its own rise of about 1.3 s, then slower ones to 88 psi. */
    static List<Input> starts(int sound, int changed) {
        Random random = new Random(7);
        List<Input> inputs = new ArrayList<>();
        double boosted = 0;
        for (int start = 0; start < sound + changed; start++) {
            boolean isSound = start < sound;
            double tau = isSound ? 0.56 + 0.01 * start : 0.9;
            for (long step = 0; step < 90 * 20; step++) {
                double second = step / 20.0;
                double level = second < 12 ? 0 : isSound ? 101 : 88;
                level = second >= 34 ? 0 : level;
                boosted += (level - boosted) * (1 - Math.exp(-0.05 / (level > 0 ? tau : 1)));
                long at = SIX + (start * 90L * 20 + step + 1) * STEP;
                inputs.add(reading(Channel.INLET, at, (level > 0 ? 39 : 42), random));
                inputs.add(reading(Channel.BOOSTED, at, boosted, random));
                if (at % Tick.PERIOD_MICROS == 0) {
                    inputs.add(new Tick(at));
                }
            }
        }
        return inputs;
    }

    private static Input reading(Channel channel, long at, double psi, Random random) {
        return Reading.good(channel, at, psi + 0.3 * random.nextGaussian());
    }

    @Test
    void every_machine_is_shown_with_its_baseline_or_how_far_learning_is() {
        Ran ran = site.leat("baseline");

        assertThat(ran.err()).isEmpty();
        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains(
                        "jet-1: baseline of 10 good starts, from 2026-01-05 06:00:1",
                        "rise 10-90 % from rest",
                        "101.0 \u00b1 1.1 psi",
                        "jet-2: no baseline yet: learning, 3 of 10");
        assertThat(ran.out().lines().filter(line -> !line.startsWith("jet-")))
                .allMatch(line -> line.length() <= 80);
    }

    @Test
    void one_machine_is_shown_as_json() throws IOException {
        Ran ran = site.leat("baseline", "--json", "--machine", "jet-1");

        JsonNode machines = MAPPER.readTree(ran.out()).get("machines");
        JsonNode rise = machines.get(0).get("baseline").get("figures").get("rise_s");
        assertThat(machines).hasSize(1);
        assertThat(machines.get(0).get("learning").isNull()).isTrue();
        assertThat(machines.get(0).get("baseline").get("starts")).hasSize(10);
        assertThat(rise.get("median").asDouble()).isBetween(1.2, 1.4);
        assertThat(rise.get("spread").asDouble()).isBetween(0.05, 0.15);
        assertThat(rise.get("count").asInt()).isEqualTo(10);
    }

    @Test
    void learning_anew_is_left_for_the_daemon_and_says_who_and_why() {
        Ran ran =
                site.leat(
                        "baseline",
                        "--machine",
                        "jet-1",
                        "--learn",
                        "--why",
                        "new nozzle",
                        "--by",
                        "Kim");

        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("baseline of jet-1: it is written down; leat is not running");
        try (StoreReader reader = StoreReader.open(folder.resolve("data/leat.db"))) {
            assertThat(reader.waiting())
                    .extracting(left -> left.takenUp(SIX))
                    .containsExactly(
                            new Instruction(
                                    SIX,
                                    "Kim",
                                    new Order.Journal(Order.Entry.LEARN, "new nozzle")));
        }
        assertThat(site.leat("baseline").out()).contains("learned anew as soon as leat runs");
    }

    @Test
    void wrong_words_are_told_in_one_line() {
        assertThat(site.leat("baseline", "--learn").code()).isEqualTo(2);
        assertThat(site.leat("baseline", "--learn", "--machine", "jet-1").err())
                .contains("Say which machine and why");
        assertThat(site.leat("baseline", "--why", "sound").code()).isEqualTo(2);
        assertThat(site.leat("baseline", "--machine", "jet-9").code()).isEqualTo(2);
        assertThat(site.leat("baseline", "--machine", "jet-9", "--learn", "--why", "sound").err())
                .contains("There is no machine jet-9")
                .hasLineCount(1);
    }

    @Test
    void a_stored_start_is_replayed_beside_the_baseline_that_it_was_judged_against() {
        Ran ran = site.leat("replay", "jet-1/11", "--ascii");

        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .containsPattern("measured +baseline +should be")
                .containsPattern(
                        "boosted reached +8[78]\\.\\d.* +101\\.0 \\+- 1\\.1 psi +at least 90")
                .containsPattern(
                        "not as usual\\s+for it:\\s+boosted reached \\(1 of 3 starts running")
                .doesNotContain("Then it was judged");
        assertThat(ran.out().lines()).hasSizeLessThan(80).allMatch(line -> line.length() <= 80);
    }

    @Test
    void a_start_that_was_learned_from_is_replayed_without_a_baseline_and_says_how_far_it_was() {
        assertThat(site.leat("replay", "jet-2/3").out())
                .contains("no baseline yet: learning, 3 of 10")
                .doesNotContainPattern("measured +baseline");
        assertThat(site.leat("replay", "jet-1/4").out())
                .contains("no baseline yet: learning, 4 of 10");
    }

    @Test
    void a_replay_gives_the_baseline_as_json_and_a_file_has_none() throws IOException {
        Path file = folder.resolve("start.csv");
        site.leat("export", "jet-1/11", "-o", file.toString());

        JsonNode fromStore = MAPPER.readTree(site.leat("replay", "jet-1/11", "--json").out());
        JsonNode fromFile = MAPPER.readTree(leat("replay", file.toString(), "--json").out());

        assertThat(fromStore.get("baseline").get("starts")).hasSize(10);
        assertThat(fromFile.get("baseline").isNull()).isTrue();
        assertThat(leat("replay", file.toString()).out()).contains("\nno baseline\n");
    }

    @Test
    void the_page_has_the_baseline_as_a_column_and_as_a_curve() throws IOException {
        Path page = folder.resolve("start.html");

        Ran ran =
                site.leat(
                        "replay", "jet-1/13", "--report", page.toString(), "--against", "jet-1/2");

        assertThat(ran.err()).isEqualTo("Written: " + page + System.lineSeparator());
        assertThat(Files.readString(page))
                .contains("<th>baseline</th>", "101.0 \u00b1 1.1 psi")
                .containsPattern("the baseline: jet-1/[56], start of .*, the middle one of 10")
                .containsOnlyOnce("<polyline class=\"typical\"")
                .containsOnlyOnce("<polyline class=\"other\"");
    }
}
