package leat.service;

import static java.util.Objects.requireNonNull;

import leat.alarm.AlarmChange;
import leat.rule.Grade;

/**
 * An alarm that is not back to normal. Immutable.
 *
 * @param machine name of the machine
 * @param latest its latest change
 */
record StandingAlarm(String machine, AlarmChange latest) {

    StandingAlarm {
        requireNonNull(machine, "machine");
        requireNonNull(latest, "latest");
    }

    /** There, ADVISORY, and not put aside. */
    boolean isActiveAdvisory() {
        return latest.to().isActive() && latest.finding().grade() == Grade.ADVISORY;
    }
}
