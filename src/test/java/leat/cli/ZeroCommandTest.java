package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import java.util.stream.Stream;
import leat.config.SiteFile;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.signal.Transducer;
import leat.store.Batch;
import leat.store.StoreReader;
import leat.wiring.CorrectionNote;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The boosted gauge of the boatyard, 0 to 200 psi on a loop, over the last seconds. */
class ZeroCommandTest {

    private static final int READINGS = 240;
    private static final long SECOND = 1_000_000;

    @TempDir Path folder;
    private StoredSite site;
    private String before;

    @BeforeEach
    void store() throws IOException {
        site = StoredSite.in(folder);
        before = Files.readString(site.file());
    }

    private void reads(IntToDoubleFunction psi) {
        reads(psi, Quality.GOOD);
    }

    /** Twenty a second, up to now; the last one has another quality. */
    private void reads(IntToDoubleFunction psi, Quality last) {
        long now = Instant.now().toEpochMilli() * 1000;
        site.commit(
                (batch, hash) -> {
                    long seq = 0;
                    for (int i = 0; i < READINGS; i++) {
                        long at = now - (READINGS - i) * SECOND / 20;
                        Quality quality = i == READINGS - 1 ? last : Quality.GOOD;
                        double value = quality.isUsable() ? psi.applyAsDouble(i) : 0;
                        Reading reading = new Reading(Channel.BOOSTED, at, value, quality);
                        batch.fed("jet-1", ++seq, reading);
                        if (i % 20 == 0) {
                            batch.fed("jet-1", ++seq, new Tick(at / SECOND * SECOND));
                        }
                    }
                });
    }

    private Ran zero(String... words) {
        return site.leat(
                "zero",
                Stream.concat(Stream.of("jet-1", "boosted"), Stream.of(words))
                        .toArray(String[]::new));
    }

    private Transducer transducer() {
        return (Transducer)
                SiteFile.load(site.file(), name -> Optional.empty())
                        .site()
                        .orElseThrow()
                        .machine("jet-1")
                        .orElseThrow()
                        .byChannel()
                        .get(Channel.BOOSTED)
                        .conversion();
    }

    private List<Path> besides() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(f -> f.getFileName().toString().startsWith("site.yaml.")).toList();
        }
    }

    private void nothingWasChanged() throws IOException {
        assertThat(Files.readString(site.file())).isEqualTo(before);
        assertThat(besides()).isEmpty();
        try (StoreReader reader = StoreReader.open(site.database())) {
            assertThat(reader.waiting()).isEmpty();
        }
    }

    @Test
    void a_vented_reading_is_zero_from_then_on_and_the_file_says_the_same_of_all_else()
            throws IOException {
        Random chance = new Random(1);
        reads(i -> 1.25 + 0.2 * chance.nextGaussian());

        Ran ran = zero("--yes", "--by", "Kim");

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(ran.out())
                .contains("mean of", "now:  scale: [ { at: 4 mA, reads: 0 psi }")
                .contains("then: scale: [ { at: 4.1", "isolate", "Restart leat now");
        assertThat(transducer().pressure().at(4.1)).isCloseTo(0, within(0.1));
        assertThat(transducer().highPsi()).isCloseTo(220, within(1e-9));
        List<String> old = before.lines().toList();
        List<String> now = Files.readAllLines(site.file());
        assertThat(now).hasSameSizeAs(old).contains(old.get(0));
        assertThat(now.stream().filter(line -> !old.contains(line))).hasSize(1);
        assertThat(Ran.leat("check", site.file().toString()).code()).isZero();
    }

    @Test
    void the_old_file_stays_beside_it_and_the_journal_has_both_scales() throws IOException {
        reads(i -> 1.25);
        Files.setPosixFilePermissions(site.file(), PosixFilePermissions.fromString("rw-r-----"));

        zero("--yes", "--by", "Kim");

        assertThat(besides())
                .singleElement()
                .satisfies(kept -> assertThat(Files.readString(kept)).isEqualTo(before));
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(site.file())))
                .isEqualTo("rw-r-----");
        try (StoreReader reader = StoreReader.open(site.database())) {
            Instruction left = reader.waiting().get(0).instruction();
            Order.Journal entry = (Order.Journal) left.order();
            assertThat(left.by()).isEqualTo("Kim");
            assertThat(entry.entry()).isEqualTo(Order.Entry.TRANSDUCER_CHANGED);
            assertThat(entry.text())
                    .contains("was scale: [ { at: 4 mA", "is now scale: [ { at: 4.1 mA");
            assertThat(CorrectionNote.read(entry.text()).orElseThrow().offPsi()).isEqualTo(1.25);
        }
    }

    @Test
    void a_link_leads_to_the_file_that_is_changed() throws IOException {
        reads(i -> 1.25);
        Path link = Files.createSymbolicLink(folder.resolve("link.yaml"), site.file());

        Ran ran = Ran.leat("zero", "jet-1", "boosted", "--yes", "--site", link.toString());

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(Files.isSymbolicLink(link)).isTrue();
        assertThat(transducer().pressure().at(4.1)).isCloseTo(0, within(1e-9));
    }

    @Test
    void a_hand_gauge_sets_the_gain_and_keeps_the_zero() {
        reads(i -> 95);

        Ran ran = zero("--against", "100 psi", "--yes");

        assertThat(ran.code()).as(ran.err()).isZero();
        assertThat(transducer().pressure().at(4 + 95 / 12.5)).isCloseTo(100, within(1e-3));
        assertThat(transducer().pressure().at(4)).isCloseTo(0, within(1e-3));
    }

    @Test
    void without_a_terminal_and_without_yes_nothing_is_done() throws IOException {
        reads(i -> 1.25);

        Ran ran = zero();

        assertThat(ran.code()).isEqualTo(ExitCode.WRONG);
        assertThat(ran.err()).contains("no terminal", "--yes");
        nothingWasChanged();
    }

    @ParameterizedTest
    @CsvSource({
        ", false",
        "'', false",
        "n, false",
        "no, false",
        "yes?, false",
        "y, true",
        "' YES ', true"
    })
    void only_yes_is_yes(String answer, boolean yes) {
        assertThat(YesOrNo.isYes(Optional.ofNullable(answer))).isEqualTo(yes);
    }

    @Test
    void what_no_vented_transducer_reads_is_refused_with_what_to_look_at() throws IOException {
        reads(i -> 30);

        Ran ran = zero("--yes");

        assertThat(ran.code()).isEqualTo(ExitCode.FAILED);
        assertThat(ran.err()).contains("never reads 30.0 psi", "not vented", "Nothing was changed");
        nothingWasChanged();
    }

    @Test
    void a_reading_that_moves_is_refused() throws IOException {
        reads(i -> 6 - 0.025 * i);

        assertThat(zero("--yes").err()).contains("The reading moves");
        nothingWasChanged();
    }

    @Test
    void a_bad_reading_is_refused_with_its_reason() throws IOException {
        reads(i -> 0.5, Quality.LOOP_BROKEN);

        assertThat(zero("--yes").err()).contains("broken wire", "wiring");
        nothingWasChanged();
    }

    @Test
    void no_reading_and_an_old_one_are_refused() throws IOException {
        assertThat(zero("--yes").err()).contains("no reading", "Does leat run");
        site.commit(
                (batch, hash) -> {
                    batch.fed("jet-1", 1, new Tick(StoredSite.SIX));
                    batch.fed("jet-1", 2, Reading.good(Channel.BOOSTED, StoredSite.SIX, 1));
                });
        assertThat(zero("--yes").err()).contains("no reading");
        nothingWasChanged();
    }

    @Test
    void what_the_old_scale_read_is_not_corrected_twice() throws IOException {
        reads(i -> 1.25);
        zero("--yes");
        String once = Files.readString(site.file());

        Ran again = zero("--yes");

        assertThat(again.code()).isEqualTo(ExitCode.FAILED);
        assertThat(again.err()).contains("Restart leat");
        assertThat(Files.readString(site.file())).isEqualTo(once);
    }

    @Test
    void a_scale_that_another_channel_shares_is_left_alone() throws IOException {
        String scale = "scale: [ { at: 4 mA, reads: 0 psi }, { at: 20 mA, reads: 200 psi } ]";
        int inlet = before.indexOf(scale);
        int boosted = before.indexOf(scale, inlet + 1);
        String shared =
                before.substring(0, inlet)
                        + scale.replace("scale:", "scale: &both")
                        + before.substring(inlet + scale.length(), boosted)
                        + "scale: *both"
                        + before.substring(boosted + scale.length());
        site = StoredSite.changed(Files.createDirectory(folder.resolve("shared")), yaml -> shared);
        before = shared;
        reads(i -> 1.25);

        Ran ran = zero("--yes");

        assertThat(ran.code()).isEqualTo(ExitCode.FAILED);
        assertThat(ran.err()).contains("something else besides", "by hand");
        assertThat(Files.readString(site.file())).isEqualTo(shared);
    }

    @Test
    void a_look_changes_nothing() throws IOException {
        reads(i -> 61.94);

        Ran ran = zero("--look");

        assertThat(ran.code()).isZero();
        assertThat(ran.out().lines().findFirst().orElseThrow())
                .startsWith("jet-1 boosted: 61.9 psi, mean of ");
        nothingWasChanged();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "jet-9 boosted",
                "jet-1 running",
                "jet-1 filtered",
                "jet-1 boosted --over x"
            })
    void what_is_not_there_is_two_and_named(String words) throws IOException {
        Ran ran =
                site.leat(
                        "zero",
                        Stream.concat(Stream.of(words.split(" ")), Stream.of("--yes"))
                                .toArray(String[]::new));

        assertThat(ran.code()).isEqualTo(ExitCode.WRONG);
        assertThat(ran.err()).isNotBlank();
        nothingWasChanged();
    }

    @Test
    void the_history_tells_who_corrected_what_and_how_fast_the_zero_wanders() {
        long year = (long) (365.25 * 86_400e6);
        site.commit(
                (batch, hash) -> {
                    note(
                            batch,
                            1,
                            StoredSite.SIX,
                            "Kim",
                            new CorrectionNote(Channel.BOOSTED, 0.5, 0));
                    note(
                            batch,
                            2,
                            StoredSite.SIX + 1,
                            "Kim",
                            new CorrectionNote(Channel.INLET, 9, 0));
                    note(
                            batch,
                            3,
                            StoredSite.SIX + year / 2,
                            "Bo",
                            new CorrectionNote(Channel.BOOSTED, 1.5, 0));
                    note(
                            batch,
                            4,
                            StoredSite.SIX + year,
                            "Bo",
                            new CorrectionNote(Channel.BOOSTED, 98, 100));
                });

        List<String> lines = zero("--history").out().lines().toList();

        assertThat(lines)
                .containsExactly(
                        "day         what  read too high by  a year   by",
                        "2026-01-05  zero  0.5 psi           -        Kim",
                        "2026-07-06  zero  1.5 psi           3.0 psi  Bo",
                        "2027-01-05  gain  -2.0 psi                   Bo");
    }

    private static void note(Batch batch, long seq, long atMicros, String by, CorrectionNote note) {
        Order.Journal entry =
                new Order.Journal(Order.Entry.TRANSDUCER_CHANGED, note.text("a", "b"));
        batch.fed("jet-1", seq, new Instruction(atMicros, by, entry));
    }
}
