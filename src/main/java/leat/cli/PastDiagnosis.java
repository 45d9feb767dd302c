package leat.cli;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Diagnostician;
import leat.diagnose.Observation;
import leat.diagnose.Observations;
import leat.diagnose.Reference;
import leat.diagnose.Suspect;
import leat.diagnose.WorkDone;
import leat.phase.Phase;
import leat.rule.Baseline;
import leat.signal.Order;
import leat.store.JournalLine;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.watch.Outcome;
import leat.watch.Recollection;

/**
 * Why a machine was as it was, from what the store holds of it: what was said, and what people
 * wrote into the journal. Work on the machine ends what is looked at: what is seen after it says
 * nothing of what was before.
 *
 * @param why the diagnosis
 * @param baseline what was usual for the machine then; empty while it was learned
 */
record PastDiagnosis(Diagnosis why, Optional<Baseline> baseline) {

    static PastDiagnosis of(StoreReader reader, WhyAbout about) {
        List<JournalLine> journal =
                new ArrayList<>(reader.journal(Optional.of(about.machine()), Integer.MAX_VALUE));
        Collections.reverse(journal);
        long toSeq = Math.min(lastSeq(reader, about), beforeWork(journal, about));
        Retelling retelling = new Retelling(journal);
        reader.outcomes(
                about.machine(),
                firstSeq(reader, about),
                toSeq,
                said -> retelling.heard(said.seq(), said.outcome()));
        retelling.noted(toSeq);
        retelling.answered();
        Optional<Baseline> baseline = reader.baselineAfter(about.machine(), toSeq);
        return new PastDiagnosis(
                retelling.why(about.counted(retelling.seen), Reference.of(baseline)), baseline);
    }

    /** Of the last start before the ten that count. */
    private static long firstSeq(StoreReader reader, WhyAbout about) {
        long beyond = about.start().map(s -> s.startup().startedAtMicros() + 1).orElse(0L);
        List<StoredStartup> last =
                reader.startups(
                        StartupQuery.newest(Observations.MOST + 1)
                                .of(about.machine())
                                .between(Long.MIN_VALUE, beyond));
        return last.size() <= Observations.MOST ? 0 : last.get(last.size() - 1).seq();
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

    /** Outcomes and journal in the order in which they came. Thread-confined. */
    private static final class Retelling {

        private final List<JournalLine> journal;
        private final Recollection seen = Recollection.ofLatest();
        private final WorkDone work = new WorkDone();
        private int next;
        private long atMicros = Long.MIN_VALUE;

        Retelling(List<JournalLine> journal) {
            this.journal = journal;
        }

        void heard(long seq, Outcome outcome) {
            noted(seq);
            seen.accept(outcome);
            if (outcome instanceof Outcome.PhaseChanged changed
                    && changed.change().to() == Phase.RISE) {
                work.started();
                atMicros = Math.max(atMicros, changed.change().atMicros());
            }
        }

        void noted(long toSeq) {
            while (next < journal.size() && journal.get(next).seq() <= toSeq) {
                JournalLine line = journal.get(next++);
                note(line);
                seen.noted(line.atMicros(), line.entry());
            }
        }

        /** What was found out later, but before the machine was worked on, is true of then too. */
        void answered() {
            journal.stream()
                    .skip(next)
                    .takeWhile(line -> !line.entry().entry().beginsAnew())
                    .filter(line -> line.entry().entry() == Order.Entry.ANSWER)
                    .forEach(this::note);
        }

        private void note(JournalLine line) {
            work.noted(line.atMicros(), line.entry());
            atMicros = Math.max(atMicros, line.atMicros());
        }

        Diagnosis why(List<Observation> counted, Reference usual) {
            return counted.isEmpty()
                    ? new Diagnosis(
                            List.of(
                                    new Suspect(
                                            Cause.UNKNOWN,
                                            1,
                                            List.of(),
                                            List.of(),
                                            Optional.empty())),
                            0,
                            usual.known(),
                            work.answers(atMicros))
                    : Diagnostician.why(
                            counted, usual, work.priors(atMicros), work.answers(atMicros));
        }
    }
}
