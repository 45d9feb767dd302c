package leat.cli;

import java.util.List;
import java.util.Optional;
import leat.diagnose.Diagnosis;
import leat.diagnose.Diagnostician;
import leat.diagnose.Observations;
import leat.diagnose.Priors;
import leat.diagnose.Reference;
import leat.rule.Baseline;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.watch.Recollection;

/**
 * Why a machine was as it was, from what the store holds of it.
 *
 * @param why the diagnosis
 * @param baseline what was usual for the machine then; empty while it was learned
 */
record PastDiagnosis(Diagnosis why, Optional<Baseline> baseline) {

    static PastDiagnosis of(StoreReader reader, WhyAbout about) {
        long toSeq = lastSeq(reader, about);
        Recollection seen = Recollection.ofLatest();
        reader.outcomes(
                about.machine(),
                firstSeq(reader, about),
                toSeq,
                said -> seen.accept(said.outcome()));
        Optional<Baseline> baseline = reader.baselineAfter(about.machine(), toSeq);
        return new PastDiagnosis(
                Diagnostician.why(
                        about.counted(seen), Reference.of(baseline), Priors.NONE, List.of()),
                baseline);
    }

    /** Of the last start before the ten that count. */
    private static long firstSeq(StoreReader reader, WhyAbout about) {
        long beyond = about.start().map(s -> s.startup().startedAtMicros() + 1).orElse(0L);
        List<StoredStartup> last =
                reader.startups(
                        StartupQuery.newest(Observations.MOST + 1)
                                .of(about.machine())
                                .between(Long.MIN_VALUE, beyond));
        return last.isEmpty() ? 0 : last.get(last.size() - 1).seq();
    }

    /** Of the last input before the next start was measured. */
    private static long lastSeq(StoreReader reader, WhyAbout about) {
        return about.start()
                .flatMap(start -> reader.startup(start.machine(), start.number() + 1))
                .map(next -> next.seq() - 1)
                .orElse(Long.MAX_VALUE);
    }
}
