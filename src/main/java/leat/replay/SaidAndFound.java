package leat.replay;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Found;
import leat.diagnose.Observation;
import leat.diagnose.Reference;
import leat.signal.Order;
import leat.store.JournalLine;
import leat.store.Said;
import leat.store.StoreReader;
import leat.watch.Outcome;

/**
 * What people found at one machine, and what leat had said before they began to work on it: the
 * newest of its calls since the work before that, or, where it called nobody, what it says of the
 * last starts. Thread-confined, like its reader.
 */
public final class SaidAndFound {

    private final StoreReader reader;
    private final String machine;
    private final List<JournalLine> lines;
    private final List<Work> works = new ArrayList<>();

    /**
     * Hands on the machine: a service from its begin to its end, or what stands in the journal
     * alone.
     */
    private record Work(long fromSeq, long toSeq, long fromMicros) {

        boolean holds(long seq) {
            return fromSeq <= seq && seq <= toSeq;
        }
    }

    private SaidAndFound(StoreReader reader, String machine) {
        this.reader = reader;
        this.machine = machine;
        lines =
                reader.journal(Optional.of(machine), Integer.MAX_VALUE).stream()
                        .sorted(Comparator.comparingLong(JournalLine::seq))
                        .toList();
    }

    /** Of every entry that says what was found, oldest first. */
    public static List<Found> of(StoreReader reader, String machine) {
        SaidAndFound both = new SaidAndFound(reader, machine);
        boolean anybodyFound = both.lines.stream().anyMatch(line -> cause(line).isPresent());
        return anybodyFound ? both.all() : List.of();
    }

    private static Optional<Cause> cause(JournalLine line) {
        return line.entry().entry() == Order.Entry.ANSWER
                ? Optional.empty()
                : Cause.byKey(line.entry().found());
    }

    private List<Found> all() {
        services();
        lines.stream()
                .filter(line -> line.entry().entry().beginsAnew())
                .filter(line -> works.stream().noneMatch(work -> work.holds(line.seq())))
                .map(line -> new Work(line.seq(), line.seq(), line.atMicros()))
                .forEach(works::add);
        works.sort(Comparator.comparingLong(Work::fromSeq));
        return lines.stream()
                .flatMap(line -> cause(line).map(c -> found(line, c)).stream())
                .toList();
    }

    /** Also those that ended by themselves, and the one that goes on. */
    private void services() {
        List<Said> changes = new ArrayList<>();
        reader.outcomes(Outcome.ServiceChanged.class, machine, 0, Long.MAX_VALUE, changes::add);
        Optional<Said> begin = Optional.empty();
        for (Said said : changes) {
            boolean on = ((Outcome.ServiceChanged) said.outcome()).change().on();
            if (!on) {
                begin.ifPresent(first -> works.add(service(first, said.seq())));
            }
            begin = on ? begin.or(() -> Optional.of(said)) : Optional.empty();
        }
        begin.ifPresent(first -> works.add(service(first, Long.MAX_VALUE)));
    }

    private static Work service(Said begin, long toSeq) {
        return new Work(begin.seq(), toSeq, begin.outcome().atMicros());
    }

    private Found found(JournalLine line, Cause cause) {
        return new Found(machine, line.atMicros(), cause, said(line).map(Diagnosis::first));
    }

    /** Goes back over work between which nothing was seen: it was all of one occasion. */
    private Optional<Diagnosis> said(JournalLine line) {
        long toSeq = line.seq() - 1;
        long toMicros = line.atMicros();
        for (int i = works.size() - 1; i >= 0; i--) {
            Work work = works.get(i);
            if (work.fromSeq() > line.seq()) {
                continue;
            }
            Optional<Diagnosis> since =
                    work.holds(line.seq()) ? Optional.empty() : said(work.toSeq(), toSeq, toMicros);
            if (since.isPresent()) {
                return since;
            }
            toSeq = work.fromSeq() - 1;
            toMicros = work.fromMicros();
        }
        return said(0, toSeq, toMicros);
    }

    private Optional<Diagnosis> said(long afterSeq, long toSeq, long toMicros) {
        List<Diagnosis> called = new ArrayList<>();
        reader.outcomes(
                Outcome.AlarmChanged.class,
                machine,
                afterSeq,
                toSeq,
                said -> ((Outcome.AlarmChanged) said.outcome()).why().ifPresent(called::add));
        return called.isEmpty()
                ? ofStarts(afterSeq, toSeq, toMicros)
                : Optional.of(called.get(called.size() - 1));
    }

    private Optional<Diagnosis> ofStarts(long afterSeq, long toSeq, long toMicros) {
        Remembered then = Remembered.ofLast(reader, machine, toMicros + 1, afterSeq, toSeq);
        List<Observation> seen = then.seen().all();
        return seen.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        then.testimony()
                                .why(seen, Reference.of(reader.baselineAfter(machine, toSeq))));
    }
}
