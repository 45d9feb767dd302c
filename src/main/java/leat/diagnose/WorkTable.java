package leat.diagnose;

import static leat.signal.Order.Entry.AIR_PURGED;
import static leat.signal.Order.Entry.COUPLING_GAP;
import static leat.signal.Order.Entry.FILTER_CHANGED;
import static leat.signal.Order.Entry.PUMP_REPLACED;
import static leat.signal.Order.Entry.REGULATOR_TURNED;
import static leat.signal.Order.Entry.SERVICED;
import static leat.signal.Order.Entry.SERVICE_OFF;
import static leat.signal.Order.Entry.STRAINER_CLEANED;
import static leat.signal.Order.Entry.TRANSDUCER_CHANGED;

import java.util.List;
import java.util.Set;
import leat.signal.Order.Entry;

/**
 * What work makes likelier or unlikelier, and for how long. Every figure is common practice, no
 * source: an order of magnitude, for a review by people who do the work. Constant.
 */
final class WorkTable {

    /** More starts than anybody makes in the days that a row counts. */
    private static final int ANY = Integer.MAX_VALUE;

    private static final Set<Entry> OPENED =
            Set.of(SERVICED, SERVICE_OFF, PUMP_REPLACED, FILTER_CHANGED, STRAINER_CLEANED);

    private WorkTable() {}

    /**
     * One line of the table. It counts in the first starts after the work, within some days.
     *
     * @param after the kinds of work
     * @param cause what they make likelier or unlikelier
     * @param factor odds beside those of a machine that nobody worked on
     * @param starts it counts up to this start after the work
     * @param days it counts for so many days after the work
     */
    record Row(Set<Entry> after, Cause cause, double factor, int starts, int days) {

        boolean counts(Entry entry, int startsSince, double daysSince) {
            return after.contains(entry) && startsSince <= starts && daysSince < days;
        }
    }

    static final List<Row> ROWS =
            List.of(
                    // Whoever opens a line lets air in; it purges in the first starts.
                    row(OPENED, Cause.AIR, 12, 3, 14),
                    // A joint or a cover that was apart may not be tight.
                    row(OPENED, Cause.EXTERNAL_LEAK, 3, ANY, 7),
                    // A hand valve that was shut for the work may still be.
                    row(OPENED, Cause.SUPPLY_SHUT, 4, 3, 7),
                    row(OPENED, Cause.WEAK_SUPPLY, 2, ANY, 7),
                    // A new pump is not worn, but its coupling was apart.
                    row(Set.of(PUMP_REPLACED), Cause.WORN_BOOSTER, 0.2, ANY, 90),
                    row(Set.of(PUMP_REPLACED), Cause.COUPLING_SLIPS, 4, ANY, 30),
                    row(Set.of(PUMP_REPLACED), Cause.NOT_TURNING, 5, 3, 30),
                    // Its own regulator, or the one beside it, comes as it was left.
                    row(Set.of(PUMP_REPLACED), Cause.SET_LOW, 2, ANY, 30),
                    row(Set.of(PUMP_REPLACED), Cause.SET_HIGH, 2, ANY, 30),
                    row(Set.of(COUPLING_GAP), Cause.COUPLING_SLIPS, 0.3, ANY, 30),
                    row(Set.of(REGULATOR_TURNED), Cause.SET_LOW, 4, ANY, 14),
                    row(Set.of(REGULATOR_TURNED), Cause.SET_HIGH, 4, ANY, 14),
                    row(Set.of(FILTER_CHANGED), Cause.FILTERS_CLOGGED, 0.1, ANY, 14),
                    row(Set.of(STRAINER_CLEANED), Cause.STRAINER_CLOGGED, 0.1, ANY, 14),
                    // Once purged it comes back only where more gets in.
                    row(Set.of(AIR_PURGED), Cause.AIR, 0.4, ANY, 7),
                    // Its own offset is gone; its cable was off. What a loop does wrong its rule
                    // finds, whatever was done.
                    row(Set.of(TRANSDUCER_CHANGED), Cause.INLET_OFFSET, 0.5, ANY, 30),
                    row(Set.of(TRANSDUCER_CHANGED), Cause.BOOSTED_OFFSET, 0.5, ANY, 30),
                    row(Set.of(TRANSDUCER_CHANGED), Cause.SWAPPED, 5, ANY, 14));

    /** After so many days no row counts any more. */
    static final int LONGEST_DAYS = ROWS.stream().mapToInt(Row::days).max().orElseThrow();

    private static Row row(Set<Entry> after, Cause cause, double factor, int starts, int days) {
        return new Row(after, cause, factor, starts, days);
    }
}
