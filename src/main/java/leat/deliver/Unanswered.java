package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.rule.Grade;

/**
 * A WARNING or CRITICAL alarm that is active and that nobody has acknowledged or put aside.
 * Immutable.
 *
 * @param machine name of the machine
 * @param latest its latest change
 * @param revision of the change since which it has stood so
 * @param sinceMicros event time of that change, microseconds UTC
 */
public record Unanswered(String machine, AlarmChange latest, int revision, long sinceMicros) {

    public Unanswered {
        requireNonNull(machine, "machine");
        requireNonNull(latest, "latest");
    }

    /**
     * What a change makes of it; empty when nobody needs to be called again. A grade that changes
     * between WARNING and CRITICAL does not set the time back.
     */
    public static Optional<Unanswered> after(
            Optional<Unanswered> before, String machine, AlarmChange change) {
        boolean waits =
                change.to() == AlarmState.UNACKNOWLEDGED
                        && change.finding().grade().isAtLeast(Grade.WARNING);
        if (!waits) {
            return Optional.empty();
        }
        return Optional.of(
                before.map(b -> new Unanswered(machine, change, b.revision, b.sinceMicros))
                        .orElseGet(
                                () ->
                                        new Unanswered(
                                                machine,
                                                change,
                                                change.revision(),
                                                change.atMicros())));
    }
}
