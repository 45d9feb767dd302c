package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.rule.Grade;

/**
 * An alarm that is not back to normal, and who was told of it. Immutable.
 *
 * @param machine name of the machine
 * @param latest its latest change
 * @param why what is known of its cause since it was last raised
 * @param unanswered since when it is WARNING or CRITICAL, active, and neither acknowledged nor put
 *     aside; empty when it is not
 * @param told by the name of the route, those that were owed anything of this occurrence
 * @param under the alarm of the same cause whose call stands for its own; empty where it has, or
 *     needs, a call of its own
 * @param number by which people call it; empty where it is not stored
 */
record StandingAlarm(
        String machine,
        AlarmChange latest,
        Optional<Diagnosis> why,
        Optional<Since> unanswered,
        Map<String, Told> told,
        Optional<Under> under,
        OptionalLong number) {

    /**
     * A change since which something holds.
     *
     * @param revision of the change
     * @param atMicros its event time, microseconds UTC
     */
    record Since(int revision, long atMicros) {}

    /**
     * The alarm whose call stands for that of another.
     *
     * @param leader its id
     * @param overSinceMicros since when it does so no more, microseconds UTC; empty while it does
     */
    record Under(String leader, OptionalLong overSinceMicros) {
        static Under of(StandingAlarm leader) {
            return new Under(leader.latest().alarmId(), OptionalLong.empty());
        }

        /** The clock was set by so much since. */
        Under waitsFrom(long byMicros) {
            return overSinceMicros.isEmpty()
                    ? this
                    : new Under(leader, OptionalLong.of(overSinceMicros.getAsLong() + byMicros));
        }
    }

    /**
     * What a route was owed of it, delivered or not.
     *
     * @param atOnce anything that did not wait for a digest
     * @param again number of the last call because nobody answers, 0 for the first on a route that
     *     is called only then; {@link #NEVER} for none
     * @param call the last call that the route got of it; empty where that waits in a digest, or
     *     among what was too much
     */
    record Told(boolean atOnce, long again, Optional<Call> call) {
        static final long NEVER = -1;
        static final Told NOTHING = new Told(false, NEVER, Optional.empty());
    }

    /**
     * A call of a route.
     *
     * @param id of the message
     * @param isOwn whether it is about this alarm, and not about another that stands for it
     * @param grade that it said
     * @param cause that it named, where one is sure
     */
    record Call(String id, boolean isOwn, Grade grade, Optional<Cause> cause) {
        static Call own(String id, StandingAlarm alarm) {
            return new Call(id, true, alarm.latest().finding().grade(), OneCause.of(alarm));
        }

        /** A call of an alarm that is no graver is told with it. */
        Call ofAnother() {
            return new Call(id, false, grade, cause);
        }
    }

    StandingAlarm {
        requireNonNull(machine, "machine");
        requireNonNull(latest, "latest");
        requireNonNull(why, "why");
        requireNonNull(unanswered, "unanswered");
        requireNonNull(under, "under");
        requireNonNull(number, "number");
        told = Collections.unmodifiableMap(new LinkedHashMap<>(told));
    }

    /**
     * How it stands after a change. A grade that changes between WARNING and CRITICAL does not set
     * back the time since which nobody answers.
     */
    static StandingAlarm after(Optional<StandingAlarm> before, Changed changed) {
        AlarmChange change = changed.change();
        boolean waits =
                change.to() == AlarmState.UNACKNOWLEDGED
                        && change.finding().grade().isAtLeast(Grade.WARNING);
        Optional<Since> since = before.flatMap(StandingAlarm::unanswered);
        Map<String, Told> told = new LinkedHashMap<>();
        before.ifPresent(alarm -> told.putAll(alarm.told()));
        if (!waits) {
            told.replaceAll((route, what) -> new Told(what.atOnce(), Told.NEVER, what.call()));
        }
        return new StandingAlarm(
                changed.machine(),
                change,
                why(before, changed),
                waits
                        ? since.or(
                                () -> Optional.of(new Since(change.revision(), change.atMicros())))
                        : Optional.empty(),
                told,
                before.flatMap(StandingAlarm::under)
                        .filter(
                                under ->
                                        change.to() == AlarmState.UNACKNOWLEDGED
                                                && !change.isCall()),
                changed.number());
    }

    private static Optional<Diagnosis> why(Optional<StandingAlarm> before, Changed changed) {
        return changed.change().event() == AlarmEvent.RAISED
                ? changed.why()
                : changed.why().or(() -> before.flatMap(StandingAlarm::why));
    }

    /** Whether the route was owed anything of it. */
    boolean wasTold(String route) {
        return told.containsKey(route);
    }

    /** Whether the route got a call of its own of it. */
    boolean wasCalled(String route) {
        return toldTo(route).call().filter(Call::isOwn).isPresent();
    }

    /** Whether the call of another alarm was its own on this route. */
    boolean isToldWithAnother(String route) {
        return toldTo(route).call().filter(call -> !call.isOwn()).isPresent();
    }

    Told toldTo(String route) {
        return told.getOrDefault(route, Told.NOTHING);
    }

    /** The route is owed a message of it. */
    StandingAlarm tells(String route, boolean atOnce) {
        Told before = toldTo(route);
        return with(route, new Told(before.atOnce() || atOnce, before.again(), before.call()));
    }

    /** The route is called. */
    StandingAlarm calls(String route, Call call) {
        Told before = toldTo(route);
        return with(route, new Told(before.atOnce(), before.again(), Optional.of(call)));
    }

    /** The route finds the last call of it in a digest, or among what was too much. */
    StandingAlarm isAmongOthers(String route) {
        Told before = toldTo(route);
        return with(
                route,
                new Told(before.atOnce(), before.again(), before.call().filter(Call::isOwn)));
    }

    /** The route is called again. */
    StandingAlarm callsAgain(String route, long times) {
        return with(route, new Told(true, times, toldTo(route).call()));
    }

    private StandingAlarm with(String route, Told now) {
        Map<String, Told> all = new LinkedHashMap<>(told);
        all.put(route, now);
        return new StandingAlarm(machine, latest, why, unanswered, all, under, number);
    }

    /** Another's call stands for its own from now on. */
    StandingAlarm under(Under now) {
        return new StandingAlarm(machine, latest, why, unanswered, told, Optional.of(now), number);
    }

    /** It has a call of its own from now on: nobody could answer before. */
    StandingAlarm alone(long nowMicros) {
        return new StandingAlarm(
                machine,
                latest,
                why,
                unanswered.map(since -> new Since(since.revision(), nowMicros)),
                told,
                Optional.empty(),
                number);
    }

    /** The clock was set by so much since. */
    StandingAlarm waitsFrom(long byMicros) {
        return new StandingAlarm(
                machine,
                latest,
                why,
                unanswered.map(s -> new Since(s.revision(), s.atMicros() + byMicros)),
                told,
                under.map(u -> u.waitsFrom(byMicros)),
                number);
    }

    /** Its latest change. */
    Changed changed() {
        return new Changed(machine, latest, why, number);
    }

    /** Back to normal: when it comes again, it is told as if for the first time. */
    boolean isOver() {
        return latest.to() == AlarmState.NORMAL;
    }

    /** There, ADVISORY, and not put aside. */
    boolean isActiveAdvisory() {
        return latest.to().isActive() && latest.finding().grade() == Grade.ADVISORY;
    }
}
