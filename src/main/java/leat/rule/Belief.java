package leat.rule;

import leat.wire.State;

/**
 * Whether a pressure channel has ever read right since leat first saw it. One that was read in the
 * wrong word order, type or scaling, or at the wrong address, gives mostly BAD readings with usable
 * ones strewn in, or the same 0 for ever: that is a matter of set-up, and no pressure.
 * Thread-confined.
 */
final class Belief {

    /** Nonsense does not look like a pressure for so many seconds. */
    private static final long RIGHT_SECONDS = 5;

    private final double emptyPsi;
    private boolean right;
    private boolean wrongSeen;
    private boolean seen;
    private boolean moved;
    private double first;
    private long rightSeconds;
    private long bad;
    private long good;
    private boolean mostlyBad;

    Belief(Limits limits) {
        emptyPsi = limits.get(Limit.REST_ADVISORY);
    }

    void readBad() {
        bad++;
    }

    void read(double psi) {
        good++;
        moved |= seen && psi != first;
        first = seen ? first : psi;
        seen = true;
    }

    /** A second has passed. */
    void tick() {
        if (bad + good == 0) {
            return;
        }
        mostlyBad = bad > good;
        wrongSeen |= mostlyBad;
        rightSeconds = mostlyBad ? 0 : rightSeconds + 1;
        right |= !isNothing() && rightSeconds >= RIGHT_SECONDS;
        bad = 0;
        good = 0;
    }

    /** True when it has read the same next to nothing, to the bit, ever since it was first read. */
    boolean isNothing() {
        return seen && !moved && Math.abs(first) <= emptyPsi;
    }

    /** What it read first. */
    double firstPsi() {
        return first;
    }

    /** True when it has never read right. */
    boolean isNever() {
        return !right && (wrongSeen || isNothing());
    }

    /** True while what it reads is not held for a pressure. */
    boolean isDoubted() {
        return isNever() || mostlyBad;
    }

    /** Event time has jumped. */
    void forget() {
        rightSeconds = 0;
        bad = 0;
        good = 0;
        mostlyBad = false;
    }

    void keep(State state) {
        right = state.keep("right", right);
        wrongSeen = state.keep("wrongSeen", wrongSeen);
        seen = state.keep("seen", seen);
        moved = state.keep("moved", moved);
        first = state.keep("first", first);
        rightSeconds = state.keep("rightSeconds", rightSeconds);
        bad = state.keep("bad", bad);
        good = state.keep("good", good);
        mostlyBad = state.keep("mostlyBad", mostlyBad);
    }
}
