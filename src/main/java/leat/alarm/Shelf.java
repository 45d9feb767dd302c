package leat.alarm;

import static java.util.Objects.requireNonNull;

import leat.rule.Grade;

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
}
