package leat.alarm;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.OptionalLong;
import leat.rule.Finding;
import leat.rule.Grade;

/**
 * One alarm, from when it is raised until it has returned and been acknowledged. Immutable.
 *
 * @param id stable id
 * @param revision number of the latest change
 * @param life where it is in its life
 * @param raisedAtMicros when it was last raised, microseconds UTC
 * @param finding the finding that stands or last stood
 * @param gravest the gravest grade that it has had
 * @param count how often it has come
 * @param latching whether it latches when its condition goes
 * @param shelf until when it is shelved, if it is
 * @param chatter how often it came lately
 */
record Alarm(
        String id,
        int revision,
        Life life,
        long raisedAtMicros,
        Finding finding,
        Grade gravest,
        int count,
        boolean latching,
        Optional<Shelf> shelf,
        Chatter chatter) {

    Alarm {
        requireNonNull(id, "id");
        requireNonNull(life, "life");
        requireNonNull(finding, "finding");
        requireNonNull(gravest, "gravest");
        requireNonNull(chatter, "chatter");
        if (life.has(Hold.SHELVED) != shelf.isPresent()) {
            throw new IllegalArgumentException(id + ": " + life + " on shelf " + shelf);
        }
    }

    /** One that has not been raised yet. */
    static Alarm toBe(String id, Finding finding, Chatter chatter) {
        return new Alarm(
                id,
                0,
                Life.NORMAL,
                finding.atMicros(),
                finding,
                finding.grade(),
                0,
                false,
                Optional.empty(),
                chatter);
    }

    /** The condition came, perhaps not for the first time. */
    Alarm came(Life next, Finding found, boolean latches, Chatter nextChatter) {
        return new Alarm(
                id,
                revision + 1,
                next,
                found.atMicros(),
                found,
                graver(gravest, found.grade()),
                count + 1,
                latching || latches,
                shelf,
                nextChatter);
    }

    /** The condition holds and its grade changed. */
    Alarm changed(Life next, Finding found, boolean latches, Chatter nextChatter) {
        return new Alarm(
                id,
                revision + 1,
                next,
                raisedAtMicros,
                found,
                graver(gravest, found.grade()),
                count,
                latching || latches,
                shelf,
                nextChatter);
    }

    /** The condition went. */
    Alarm went(Life next, Finding last, Chatter nextChatter) {
        return new Alarm(
                id,
                revision + 1,
                next,
                raisedAtMicros,
                last,
                gravest,
                count,
                latching,
                shelf,
                nextChatter);
    }

    /** Somebody did something to it, or a hold ended. */
    Alarm handled(Life next, Optional<Shelf> nextShelf) {
        return new Alarm(
                id,
                revision + 1,
                next,
                raisedAtMicros,
                finding,
                gravest,
                count,
                latching && next.own() != AlarmState.NORMAL,
                nextShelf,
                chatter);
    }

    /** The clock was set by so much: it has stood for as long as before. */
    Alarm moved(long byMicros, Chatter nextChatter) {
        return new Alarm(
                id,
                revision,
                life,
                raisedAtMicros + byMicros,
                finding.moved(byMicros),
                gravest,
                count,
                latching,
                shelf,
                nextChatter);
    }

    /** Nothing that anybody is told of. */
    Alarm noting(Chatter nextChatter) {
        return new Alarm(
                id,
                revision,
                life,
                raisedAtMicros,
                finding,
                gravest,
                count,
                latching,
                shelf,
                nextChatter);
    }

    private static Grade graver(Grade one, Grade other) {
        return one.isAtLeast(other) ? one : other;
    }

    AlarmNotes notes(Act act) {
        return new AlarmNotes(
                life.own(),
                count,
                chatter.isOn(),
                shelf.map(s -> OptionalLong.of(s.untilMicros())).orElse(OptionalLong.empty()),
                act.why(),
                act.reason());
    }
}
