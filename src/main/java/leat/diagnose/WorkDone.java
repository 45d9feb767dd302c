package leat.diagnose;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.wire.State;

/**
 * What people did to a machine lately and what they answered to checks, as far as it still counts.
 * Thread-confined to its watch.
 */
public final class WorkDone {

    /** After so many days nothing of it counts any more. */
    public static final int LONGEST_DAYS = WorkTable.LONGEST_DAYS;

    /** An answer is of the day it was given; leat's own choice, no source. */
    private static final int ANSWER_DAYS = 7;

    private static final double MICROS_PER_DAY = 86_400_000_000.0;

    private List<Deed> deeds = new ArrayList<>();
    private List<Said> said = new ArrayList<>();

    /**
     * Work on the machine.
     *
     * @param starts that began after it
     */
    private record Deed(long atMicros, Entry entry, int starts) {

        boolean isOf(Entry kind) {
            return entry == kind;
        }

        Deed started() {
            return new Deed(atMicros, entry, starts + 1);
        }

        Deed moved(long micros) {
            return new Deed(atMicros + micros, entry, starts);
        }
    }

    private record Said(long atMicros, Answer answer) {

        Said moved(long micros) {
            return new Said(atMicros + micros, answer);
        }
    }

    /**
     * Somebody wrote into the journal of the machine. Work puts an end to what was answered before.
     * An answer takes the place of an earlier one to the same check; one that no check has says
     * nothing. What is done in the course of a service comes after it, though its end is later: a
     * line that was purged before the service was ended is purged.
     */
    public void noted(long atMicros, Order.Journal journal) {
        Entry entry = journal.entry();
        if (entry == Entry.ANSWER) {
            Answer.byKey(journal.found()).ifPresent(answer -> answered(atMicros, answer));
        }
        if (entry.beginsAnew()) {
            said.clear();
        }
        deeds.removeIf(deed -> days(deed.atMicros(), atMicros) >= LONGEST_DAYS);
        Deed deed = new Deed(atMicros, entry == Entry.SERVICE_ON ? Entry.SERVICE_OFF : entry, 0);
        if (entry == Entry.SERVICE_OFF && deeds.stream().anyMatch(one -> one.isOf(entry))) {
            deeds.replaceAll(one -> one.isOf(entry) ? deed : one);
        } else if (entry.beginsAnew() || entry == Entry.SERVICE_ON) {
            deeds.removeIf(one -> one.isOf(deed.entry()));
            deeds.add(deed);
        }
    }

    private void answered(long atMicros, Answer answer) {
        said.removeIf(one -> Check.of(one.answer()) == Check.of(answer));
        said.add(new Said(atMicros, answer));
    }

    /** The booster starts. */
    public void started() {
        deeds.replaceAll(Deed::started);
    }

    /** The clock was set. */
    public void step(long fromMicros, long atMicros) {
        deeds.replaceAll(deed -> deed.moved(atMicros - fromMicros));
        said.replaceAll(one -> one.moved(atMicros - fromMicros));
    }

    /**
     * What the work makes likelier or unlikelier now. Of several deeds that say something of one
     * cause the newest one does.
     *
     * @param atMicros now, microseconds UTC
     */
    public Priors priors(long atMicros) {
        Map<Cause, Double> factors = new EnumMap<>(Cause.class);
        for (Deed deed : deeds) {
            double days = days(deed.atMicros(), atMicros);
            WorkTable.ROWS.stream()
                    .filter(row -> row.counts(deed.entry(), deed.starts(), days))
                    .forEach(row -> factors.put(row.cause(), row.factor()));
        }
        return new Priors(factors);
    }

    /**
     * What people answered since the machine was last worked on, oldest first.
     *
     * @param atMicros now, microseconds UTC; what is older than a week no longer counts
     */
    public List<Answer> answers(long atMicros) {
        return said.stream()
                .filter(one -> days(one.atMicros(), atMicros) < ANSWER_DAYS)
                .map(Said::answer)
                .toList();
    }

    private static double days(long fromMicros, long toMicros) {
        return (toMicros - fromMicros) / MICROS_PER_DAY;
    }

    public void keep(State state) {
        deeds = new ArrayList<>(state.keep("deeds", Deed.class, deeds));
        said = new ArrayList<>(state.keep("said", Said.class, said));
    }
}
