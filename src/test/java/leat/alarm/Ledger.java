package leat.alarm;

import java.util.Optional;
import leat.rule.Grade;

/**
 * What must be so of one alarm, kept without looking at the table of transitions, for a test that
 * tries every sequence of inputs.
 *
 * @param condition the grade at which the condition holds now
 * @param visible the grade that the alarm shows: that of the condition, but while it chatters the
 *     gravest of late
 * @param owed somebody was called and nobody has acknowledged
 * @param armed it will latch when it goes
 * @param latched it went, and nobody has reset it
 * @param gravest the gravest grade that it has had in this occurrence
 * @param shelf the gravest grade that the shelf covers
 * @param service somebody works on the machine
 * @param removed the alarm is out of service
 */
record Ledger(
        Optional<Grade> condition,
        Optional<Grade> visible,
        boolean owed,
        boolean armed,
        boolean latched,
        Optional<Grade> gravest,
        Optional<Grade> shelf,
        boolean service,
        boolean removed) {

    static final Ledger EMPTY =
            new Ledger(
                    Optional.empty(),
                    Optional.empty(),
                    false,
                    false,
                    false,
                    Optional.empty(),
                    Optional.empty(),
                    false,
                    false);

    enum Input {
        ADVISORY,
        CRITICAL,
        CLEAR,
        ACK,
        RESET,
        SHELVE,
        UNSHELVE,
        SERVICE_ON,
        SERVICE_OFF,
        REMOVE,
        RESTORE,
        AN_HOUR_PASSES
    }

    record Entry(Ledger ledger, boolean refused) {}

    private boolean held() {
        return shelf.isPresent() || service || removed;
    }

    /**
     * @param known whether the alarm has ever been raised
     * @param chatters whether it is held active just now because it chatters
     * @param latching whether CRITICAL latches here
     */
    Entry after(Input input, boolean known, boolean chatters, boolean latching) {
        return switch (input) {
            case ADVISORY -> new Entry(came(Grade.ADVISORY, latching, chatters), false);
            case CRITICAL -> new Entry(came(Grade.CRITICAL, latching, chatters), false);
            case CLEAR -> new Entry(went(chatters), false);
            case ACK -> held() || !owed ? refuse() : new Entry(owing(false), false);
            case RESET ->
                    held() || !latched || owed || visible.isPresent()
                            ? refuse()
                            : new Entry(unlatched(), false);
            case SHELVE ->
                    !known || removed
                            ? refuse()
                            : new Entry(holding(gravest, service, removed), false);
            case UNSHELVE ->
                    shelf.isEmpty()
                            ? refuse()
                            : new Entry(holding(Optional.empty(), service, removed), false);
            case SERVICE_ON -> new Entry(holding(shelf, true, removed), false);
            case SERVICE_OFF ->
                    service ? new Entry(holding(shelf, false, removed), false) : refuse();
            case REMOVE ->
                    !known || removed ? refuse() : new Entry(holding(shelf, service, true), false);
            case RESTORE -> removed ? new Entry(holding(shelf, service, false), false) : refuse();
            case AN_HOUR_PASSES ->
                    new Entry(
                            holding(Optional.empty(), service, removed).keptStill(chatters), false);
        };
    }

    private Entry refuse() {
        return new Entry(this, true);
    }

    private Ledger came(Grade grade, boolean latching, boolean chatters) {
        Optional<Grade> shown =
                chatters && visible.orElseThrow().isAtLeast(grade) ? visible : Optional.of(grade);
        boolean news = visible.filter(v -> v.isAtLeast(grade)).isEmpty();
        Optional<Grade> worst =
                gravest.filter(g -> g.isAtLeast(grade)).or(() -> Optional.of(grade));
        boolean arms = armed || latching && grade == Grade.CRITICAL;
        boolean breaks = shelf.filter(upTo -> upTo.compareTo(grade) < 0).isPresent();
        Ledger came =
                new Ledger(
                        Optional.of(grade),
                        shown,
                        owed || news && !held(),
                        arms,
                        latched && visible.isPresent(),
                        worst,
                        shelf,
                        service,
                        removed);
        return breaks ? came.holding(Optional.empty(), service, removed) : came;
    }

    private Ledger went(boolean chatters) {
        return new Ledger(
                Optional.empty(),
                chatters ? visible : Optional.empty(),
                owed,
                armed,
                !chatters && visible.isPresent() ? armed : latched,
                gravest,
                shelf,
                service,
                removed);
    }

    private Ledger keptStill(boolean chatters) {
        if (!chatters) {
            return this;
        }
        return new Ledger(
                condition,
                condition,
                owed,
                armed,
                condition.isEmpty() ? armed : latched,
                gravest,
                shelf,
                service,
                removed);
    }

    private Ledger owing(boolean owes) {
        return new Ledger(
                condition, visible, owes, armed, latched, gravest, shelf, service, removed);
    }

    private Ledger unlatched() {
        return new Ledger(condition, visible, owed, false, false, gravest, shelf, service, removed);
    }

    /** Whoever is free again and active is called out. */
    private Ledger holding(Optional<Grade> onShelf, boolean inService, boolean out) {
        Ledger next =
                new Ledger(
                        condition, visible, owed, armed, latched, gravest, onShelf, inService, out);
        boolean freed = held() && !next.held();
        return freed && visible.isPresent() ? next.owing(true) : next;
    }
}
