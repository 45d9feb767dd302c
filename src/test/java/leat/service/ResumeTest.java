package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.config.Site;
import leat.config.SiteFile;
import leat.measure.Measurand;
import leat.rule.Baseline;
import leat.rule.Usual;
import leat.signal.Tick;
import leat.store.Batch;
import leat.store.Snapshot;
import leat.store.Store;
import leat.store.StoreReader;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ResumeTest {

    private static final long SIX = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z

    @TempDir Path folder;

    @Test
    void a_watch_that_must_begin_afresh_still_knows_what_is_usual_for_its_machine()
            throws Exception {
        Path file = folder.resolve("site.yaml");
        Files.copy(Path.of("config/boatyard-modbus.yaml"), file);
        Site site = SiteFile.load(file, name -> Optional.empty()).site().orElseThrow();
        Baseline baseline =
                new Baseline(SIX, List.of(SIX - 1), Map.of(Measurand.TOP, new Usual(99, 1, 1)));
        Batch batch = new Batch();
        batch.fed("jet-1", 1, new Tick(SIX));
        batch.said("jet-1", 1, new Outcome.BaselineLearned(baseline), site.hash());
        batch.snapshot(new Snapshot("jet-1", 1, SIX, 1, new byte[] {1, 2, 3}));
        try (Store store = Store.open(site.store().file())) {
            store.startRun("test", site.hash(), site.text(), SIX);
            store.commit(batch);
        }

        Watched jet1;
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            jet1 = new Resume(reader, site, text -> Optional.of(site)).machines().get(0);
        }

        WatchSettings settings = Watched.watchSettings(site.machine("jet-1").orElseThrow());
        assertThat(jet1.isAfresh()).isTrue();
        assertThat(jet1.snapshot(SIX).state())
                .isEqualTo(new Watch(settings.knowing(Optional.of(baseline))).snapshot())
                .isNotEqualTo(new Watch(settings).snapshot());
    }
}
