package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.OptionalLong;
import leat.words.Language;
import leat.words.Phrases;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What an installer hears of the disk before the site runs. */
class DiskNeedTest {

    private static final Phrases ENGLISH = Phrases.in(Language.ENGLISH);

    private static final Duration MONTH = Duration.ofDays(30);

    @TempDir Path folder;

    @Test
    void two_machines_with_two_pressures_at_twenty_a_second_take_what_the_manual_says()
            throws IOException {
        Path file = folder.resolve("site.yaml");
        Files.copy(Path.of("config/boatyard-modbus.yaml"), file);

        Ran ran = Ran.leat("check", file.toString());

        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains(
                        "Readings: 80 a second.",
                        "Disk: about 7 MB a day, 2.5 GB in 365 d of running"
                                + " (store.keep_samples); free for it: ");
    }

    @Test
    void what_sensors_send_is_not_known_and_said_for_one_reading_a_second() {
        DiskNeed need = new DiskNeed(0, 0, 5, MONTH);

        assertThat(need.lines(OptionalLong.empty(), ENGLISH))
                .containsExactly(
                        "Readings: as many as the sensors of 5 MQTT channels send.",
                        "Disk for 1 a second: about 1 MB a day, 18 MB in 30 d of running"
                                + " (store.keep_samples).");
        assertThat(need.shortage(OptionalLong.of(0), ENGLISH)).isEmpty();
    }

    @Test
    void of_both_kinds_the_disk_is_told_without_what_the_sensors_send() {
        assertThat(
                        new DiskNeed(40, 20, 2, Duration.ofHours(12))
                                .lines(OptionalLong.of(1_000_000_000), ENGLISH))
                .containsExactly(
                        "Readings: 40 a second by Modbus, and as many as the sensors of 2 MQTT"
                                + " channels send.",
                        "Disk without MQTT: about 14 MB a day, 13 MB in 12 h of running"
                                + " (store.keep_samples); free for it: 1.0 GB.");
    }

    @Test
    void more_than_is_free_is_a_warning_with_the_days_that_there_is_room_for() {
        DiskNeed need = new DiskNeed(80, 0, 0, MONTH);

        assertThat(need.shortage(OptionalLong.of(221_500_000L), ENGLISH)).isEmpty();
        assertThat(need.shortage(OptionalLong.of(81_720_000L), ENGLISH))
                .hasValueSatisfying(
                        words ->
                                assertThat(words)
                                        .startsWith("store.keep_samples: 30 d of readings are more")
                                        .endsWith("keep less: 10 d fill what is free"));
    }

    @Test
    void a_folder_that_is_still_to_be_made_is_on_the_disk_of_the_one_above_it() {
        assertThat(DiskNeed.free(folder.resolve("a/b/leat.db"))).isPresent();
    }
}
