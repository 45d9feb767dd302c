package leat.alarm;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.rule.Grade;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/**
 * Until when an alarm is put aside, and how grave it was then: one that becomes graver than the
 * person who shelved it knew comes back at once. Immutable.
 *
 * @param untilMicros microseconds UTC
 * @param upTo the gravest grade that it covers
 */
record Shelf(long untilMicros, Grade upTo) {

    Shelf {
        requireNonNull(upTo, "upTo");
    }

    static void save(Optional<Shelf> shelf, StateWriter out) {
        out.putBoolean(shelf.isPresent());
        shelf.ifPresent(
                s -> {
                    out.putLong(s.untilMicros);
                    out.putInt(s.upTo.ordinal());
                });
    }

    static Optional<Shelf> load(StateReader in) {
        return in.getBoolean()
                ? Optional.of(new Shelf(in.getLong(), Grade.values()[in.getInt()]))
                : Optional.empty();
    }
}
