package leat.replay;

import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.rule.Finding;
import leat.rule.Grade;

/**
 * One occurrence of an alarm, from its raising to its return or the end of the past.
 *
 * @param changes in order, at least one
 */
public record AlarmLife(List<AlarmChange> changes) {

    public AlarmLife {
        changes = List.copyOf(changes);
        if (changes.isEmpty()) {
            throw new IllegalArgumentException("an alarm has at least one change");
        }
    }

    public AlarmChange first() {
        return changes.get(0);
    }

    public AlarmChange last() {
        return changes.get(changes.size() - 1);
    }

    /** The gravest grade that it had. */
    public Grade grade() {
        return gravest().grade();
    }

    /** The finding of the gravest grade that it had, as it was first found. */
    public Finding gravest() {
        Finding gravest = first().finding();
        for (AlarmChange change : changes) {
            if (change.finding().grade().compareTo(gravest.grade()) > 0) {
                gravest = change.finding();
            }
        }
        return gravest;
    }

    /** The change by which it returned to normal; empty while it stands. */
    public Optional<AlarmChange> returned() {
        return changes.stream()
                .filter(c -> c.event() == AlarmEvent.RETURNED || c.event() == AlarmEvent.LATCHED)
                .reduce((a, b) -> b);
    }

    public Optional<AlarmChange> acknowledged() {
        return latest(AlarmEvent.ACKNOWLEDGED);
    }

    private Optional<AlarmChange> latest(AlarmEvent event) {
        return changes.stream().filter(c -> c.event() == event).reduce((a, b) -> b);
    }
}
