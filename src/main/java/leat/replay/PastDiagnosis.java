package leat.replay;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Diagnosis;
import leat.diagnose.Reference;
import leat.diagnose.Testimony;
import leat.rule.Baseline;
import leat.store.JournalLine;
import leat.store.StoreReader;

/**
 * Why a machine was as it was, from what the store holds of it: what was said, and what people
 * wrote into the journal. Work on the machine ends what is looked at: what is seen after it says
 * nothing of what was before.
 *
 * @param why the diagnosis
 * @param baseline what was usual for the machine then; empty while it was learned
 */
public record PastDiagnosis(Diagnosis why, Optional<Baseline> baseline) {

    public static PastDiagnosis of(StoreReader reader, WhyAbout about) {
        List<JournalLine> journal =
                new ArrayList<>(reader.journal(Optional.of(about.machine()), Integer.MAX_VALUE));
        Collections.reverse(journal);
        long toSeq = Math.min(lastSeq(reader, about), beforeWork(journal, about));
        long beyond = about.start().map(s -> s.startup().startedAtMicros() + 1).orElse(0L);
        Remembered then = Remembered.ofLast(reader, about.machine(), beyond, 0, toSeq);
        Optional<Baseline> baseline = reader.baselineAfter(about.machine(), toSeq);
        Testimony said = about.isCalled() ? then.testimony().called() : then.testimony();
        return new PastDiagnosis(
                said.why(about.counted(then.seen()), Reference.of(baseline)), baseline);
    }

    /** Of the last input before the next start was measured. */
    private static long lastSeq(StoreReader reader, WhyAbout about) {
        return about.start()
                .flatMap(start -> reader.startup(start.machine(), start.number() + 1))
                .map(next -> next.seq() - 1)
                .orElse(Long.MAX_VALUE);
    }

    private static long beforeWork(List<JournalLine> journal, WhyAbout about) {
        return journal.stream()
                .filter(line -> line.entry().entry().beginsAnew() && about.isBefore(line))
                .mapToLong(line -> line.seq() - 1)
                .findFirst()
                .orElse(Long.MAX_VALUE);
    }
}
