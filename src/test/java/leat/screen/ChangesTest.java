package leat.screen;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.live.SiteNow;
import leat.report.Shown;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo in lines, as a pipe gets it. */
class ChangesTest {

    @TempDir private static Path folder;
    private static List<SiteNow> demo;

    private final Changes changes = new Changes(new Shown(ZoneOffset.UTC, PressureUnit.PSI));

    @BeforeAll
    static void live() throws IOException {
        demo = Lived.demo(folder);
    }

    private List<String> all() {
        List<String> lines = new ArrayList<>();
        Optional<SiteNow> before = Optional.empty();
        for (SiteNow now : demo) {
            lines.addAll(changes.between(before, now));
            before = Optional.of(now);
        }
        return lines;
    }

    @Test
    void each_line_begins_with_its_time_and_its_machine() {
        assertThat(all())
                .hasSizeBetween(15, 60)
                .allMatch(
                        line ->
                                line.matches(
                                        "2026-01-05 06:0\\d:\\d\\d \\+00:00 (jet-1|jet-2|leat) .+"));
    }

    @Test
    void start_and_alarm_are_told_once_with_what_to_do() {
        List<String> lines = all();

        assertThat(lines).filteredOn(line -> line.contains("Start jet-2/1 ")).hasSize(1);
        assertThat(lines)
                .filteredOn(line -> line.contains(" jet-2 WARNING no. 1 "))
                .singleElement()
                .asString()
                .contains("weak boost 1.7", "< 2.00", "Worn booster likely", "does the level");
    }

    @Test
    void nothing_new_gives_no_line() {
        assertThat(changes.between(Optional.of(demo.get(20)), demo.get(20))).isEmpty();
    }

    @Test
    void silence_of_leat_and_of_each_gauge_is_told_and_their_return() {
        SiteNow now = demo.get(30);
        SiteNow stale = Lived.stale(now, 60);

        assertThat(changes.between(Optional.of(now), stale))
                .anyMatch(line -> line.contains(" leat LEAT STORES NOTHING"))
                .anyMatch(line -> line.contains(" jet-1 boosted: silent, last "));
        assertThat(changes.between(Optional.of(stale), now))
                .anyMatch(line -> line.contains(" leat leat runs"))
                .anyMatch(line -> line.matches(".* jet-1 boosted: \\d+\\.\\d psi"));
    }
}
