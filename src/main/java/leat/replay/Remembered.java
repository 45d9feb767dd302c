package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Observations;
import leat.diagnose.Testimony;
import leat.diagnose.WorkDone;
import leat.signal.Order.Entry;
import leat.store.JournalLine;
import leat.store.Said;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.watch.Outcome;
import leat.watch.Recollection;

/**
 * What the watch of a machine remembered when it had been fed some input, as the store tells it;
 * and what checks showed later, before anybody worked on the machine, for that is true of then too.
 * Where the clock was set since, the work before that counts by what the clock said then.
 *
 * @param seen the starts with their runs and stops
 * @param testimony what people had done and answered, as far as it counts
 */
public record Remembered(Recollection seen, Testimony testimony) {

    private static final long LONGEST_MICROS = WorkDone.LONGEST_DAYS * 86_400_000_000L;

    public Remembered {
        requireNonNull(seen, "seen");
        requireNonNull(testimony, "testimony");
    }

    /**
     * @param afterSeq what was seen up to this input does not count; work does
     * @param toSeq the last input that the machine had been fed
     */
    public static Remembered of(StoreReader reader, String machine, long afterSeq, long toSeq) {
        List<Said> said = new ArrayList<>();
        reader.outcomes(machine, afterSeq, toSeq, said::add);
        List<JournalLine> lines =
                reader.journal(Optional.of(machine), Integer.MAX_VALUE).stream()
                        .sorted(Comparator.comparingLong(JournalLine::seq))
                        .takeWhile(
                                line -> line.seq() <= toSeq || !line.entry().entry().beginsAnew())
                        .filter(line -> line.seq() <= toSeq || line.entry().entry() == Entry.ANSWER)
                        .toList();
        long atMicros = latest(said, lines);
        Deque<JournalLine> counting = new ArrayDeque<>(lines);
        while (!counting.isEmpty() && counting.peek().atMicros() < atMicros - LONGEST_MICROS) {
            counting.remove();
        }
        Recollection seen = Recollection.ofLatest();
        if (!counting.isEmpty()) {
            List<Said> before = new ArrayList<>();
            long since = counting.peek().seq();
            reader.outcomes(Outcome.PhaseChanged.class, machine, since, afterSeq, before::add);
            reader.outcomes(Outcome.ServiceChanged.class, machine, since, afterSeq, before::add);
            before.sort(Comparator.comparingLong(Said::seq).thenComparingInt(Said::nth));
            tell(seen, before, counting);
        }
        tell(seen, said, counting);
        counting.forEach(line -> seen.noted(line.atMicros(), line.entry()));
        return new Remembered(seen, seen.testimony(atMicros));
    }

    /**
     * Likewise of the last starts alone, as many as are looked at together.
     *
     * @param beyondMicros they began before this time, microseconds UTC
     */
    public static Remembered ofLast(
            StoreReader reader, String machine, long beyondMicros, long afterSeq, long toSeq) {
        List<StoredStartup> last =
                reader.startups(
                        StartupQuery.newest(Observations.MOST + 1)
                                .of(machine)
                                .between(Long.MIN_VALUE, beyondMicros));
        long beforeThese = last.size() <= Observations.MOST ? 0 : last.get(last.size() - 1).seq();
        return of(reader, machine, Math.max(afterSeq, beforeThese), toSeq);
    }

    /** An entry comes after what was said to it. */
    private static void tell(Recollection seen, List<Said> said, Deque<JournalLine> lines) {
        for (Said one : said) {
            while (!lines.isEmpty() && lines.peek().seq() < one.seq()) {
                JournalLine line = lines.remove();
                seen.noted(line.atMicros(), line.entry());
            }
            seen.accept(one.outcome());
        }
    }

    private static long latest(List<Said> said, List<JournalLine> lines) {
        long latest = lines.isEmpty() ? 0 : lines.get(lines.size() - 1).atMicros();
        return said.isEmpty()
                ? latest
                : Math.max(latest, said.get(said.size() - 1).outcome().atMicros());
    }
}
