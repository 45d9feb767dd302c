package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import leat.alarm.AlarmState;
import leat.live.SilentAlarms;
import leat.rule.Grade;
import leat.store.StoreReader;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A cabinet is away: four channels of two machines are silent, one machine is weak besides. People
 * see one row and type one number.
 */
class OutageShownTest {

    private static final long SECOND = 1_000_000;

    @TempDir Path folder;
    private StoredSite site;

    @BeforeEach
    void alarms() throws IOException {
        site = StoredSite.in(folder);
        site.commit(
                (batch, hash) -> {
                    SilentAlarms.into(batch, hash, "jet-1", StoredSite.SIX);
                    SilentAlarms.into(batch, hash, "jet-2", StoredSite.SIX + 2 * SECOND);
                    new RaisedAlarm("jet-2", Grade.WARNING, AlarmState.UNACKNOWLEDGED, 9, "", "")
                            .into(batch, hash);
                });
    }

    private static List<String> rows(Ran ran) {
        return ran.out().lines().filter(line -> line.matches("[0-9]+  +.*")).toList();
    }

    @Test
    void list_has_one_row_for_all_that_fell_silent_together_and_names_what_is_blind() {
        Ran ran = site.leat("alarms");

        assertThat(rows(ran)).hasSize(2);
        assertThat(rows(ran).get(1)).startsWith("1 ").contains("jet-1").contains("nothing comes");
        assertThat(ran.out().replaceAll("\\s+", " "))
                .contains(
                        "1 stands for 4 alarms: nothing comes from cabinet-1. leat is blind there:"
                                + " jet-1 inlet, boosted; jet-2 inlet, boosted. leat ack 1 is enough"
                                + " for all of them.");
        assertThat(ran.out().lines()).allMatch(line -> line.length() <= 80);
    }

    @Test
    void machines_say_it_once_and_each_row_what_is_away() {
        String out = site.leat("machines").out();

        assertThat(out.replaceAll("\\s+", " "))
                .contains("leat is blind there: jet-1 inlet, boosted; jet-2 inlet, boosted.");
        assertThat(out.lines().filter(line -> line.startsWith("jet-1")))
                .allMatch(line -> line.contains("WARNING silent"));
    }

    @Test
    void one_number_acknowledges_all_of_it_each_by_an_instruction_of_its_own() throws IOException {
        Ran ran = site.leat("ack", "3", "--by", "kim");

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(ran.out())
                .contains("alarm 3: ", "alarm 1: ", "alarm 2: ", "alarm 4: ")
                .contains("4 alarms of one outage: ", "(nothing comes from cabinet-1).")
                .doesNotContain("alarm 5");
        try (StoreReader reader = StoreReader.open(site.database())) {
            assertThat(reader.waiting()).hasSize(4);
        }
    }

    @Test
    void alarm_that_is_of_no_outage_is_acknowledged_alone() {
        Ran ran = site.leat("ack", "5", "--by", "kim");

        assertThat(ran.out()).contains("alarm 5: ").doesNotContain("outage");
        try (StoreReader reader = StoreReader.open(site.database())) {
            assertThat(reader.waiting()).hasSize(1);
        }
    }

    @Test
    void document_tells_each_alarm() throws IOException {
        assertThat(site.json("alarms", "--json").get("alarms")).hasSize(5);
    }
}
