package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.rule.Grade;

/**
 * An alarm that is not back to normal, and who was told of it. Immutable.
 *
 * @param machine name of the machine
 * @param latest its latest change
 * @param unanswered since when it is WARNING or CRITICAL, active, and neither acknowledged nor put
 *     aside; empty when it is not
 * @param told by the name of the route, those that were owed anything of this occurrence
 */
record StandingAlarm(
        String machine, AlarmChange latest, Optional<Since> unanswered, Map<String, Told> told) {

    /**
     * A change since which something holds.
     *
     * @param revision of the change
     * @param atMicros its event time, microseconds UTC
     */
    record Since(int revision, long atMicros) {}

    /**
     * What a route was owed of it, delivered or not.
     *
     * @param atOnce anything that did not wait for a digest
     * @param again number of the last call because nobody answers, 0 for the first on a route that
     *     is called only then; {@link #NEVER} for none
     */
    record Told(boolean atOnce, long again) {
        static final long NEVER = -1;
        static final Told NOTHING = new Told(false, NEVER);
    }

    StandingAlarm {
        requireNonNull(machine, "machine");
        requireNonNull(latest, "latest");
        requireNonNull(unanswered, "unanswered");
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
            told.replaceAll((route, what) -> new Told(what.atOnce(), Told.NEVER));
            return new StandingAlarm(changed.machine(), change, Optional.empty(), told);
        }
        return new StandingAlarm(
                changed.machine(),
                change,
                since.or(() -> Optional.of(new Since(change.revision(), change.atMicros()))),
                told);
    }

    /** Whether the route was owed anything of it. */
    boolean wasTold(String route) {
        return told.containsKey(route);
    }

    Told toldTo(String route) {
        return told.getOrDefault(route, Told.NOTHING);
    }

    /** The route is owed a message of it. */
    StandingAlarm tells(String route, boolean atOnce) {
        Told before = toldTo(route);
        return with(route, new Told(before.atOnce() || atOnce, before.again()));
    }

    /** The route is called again. */
    StandingAlarm callsAgain(String route, long times) {
        return with(route, new Told(true, times));
    }

    private StandingAlarm with(String route, Told now) {
        Map<String, Told> all = new LinkedHashMap<>(told);
        all.put(route, now);
        return new StandingAlarm(machine, latest, unanswered, all);
    }

    /** The clock was set by so much since. */
    StandingAlarm waitsFrom(long byMicros) {
        return new StandingAlarm(
                machine,
                latest,
                unanswered.map(s -> new Since(s.revision(), s.atMicros() + byMicros)),
                told);
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
