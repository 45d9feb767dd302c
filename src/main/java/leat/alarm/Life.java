package leat.alarm;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;

/**
 * Where an alarm is in its life: a state of its own, one of A to F, and what holds it back.
 * Immutable.
 *
 * @param own the state underneath
 * @param holds why nobody is called; mostly empty
 */
record Life(AlarmState own, Set<Hold> holds) {

    static final Life NORMAL = new Life(AlarmState.NORMAL, Set.of());

    Life {
        requireNonNull(own, "own");
        if (own.isHeld()) {
            throw new IllegalArgumentException(own + " is no state of its own");
        }
        holds =
                holds.isEmpty()
                        ? Set.of()
                        : Collections.unmodifiableSet(EnumSet.copyOf(holds)); // in a fixed order
    }

    Life after(AlarmEvent event) {
        return Transitions.after(this, event)
                .orElseThrow(() -> new IllegalStateException(event + " is not legal in " + this));
    }

    /** The state that people are shown. */
    AlarmState shown() {
        AlarmState shown = own;
        for (Hold hold : holds) {
            shown = hold.shown();
        }
        return shown;
    }

    boolean isHeld() {
        return !holds.isEmpty();
    }

    boolean has(Hold hold) {
        return holds.contains(hold);
    }

    /** Nothing stands and nothing is held back: the next occurrence is a new alarm. */
    boolean isOver() {
        return own == AlarmState.NORMAL && holds.isEmpty();
    }

    Life to(AlarmState next) {
        return new Life(next, holds);
    }

    Life with(Hold hold) {
        Set<Hold> more = EnumSet.of(hold);
        more.addAll(holds);
        return new Life(own, more);
    }

    Life without(Hold hold) {
        Set<Hold> fewer = EnumSet.noneOf(Hold.class);
        fewer.addAll(holds);
        fewer.remove(hold);
        return new Life(own, fewer);
    }
}
