package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.time.LocalDate;
import java.util.List;
import leat.rule.Grade;
import leat.store.Message;

/**
 * How the last day went: comes every day, so that its absence is noticed. Immutable.
 *
 * @param date of the site's calendar on which it is told
 * @param days of the machines that the route carries
 */
record Day(LocalDate date, List<MachineDay> days) implements About {

    static final String EVENT = "all-is-well";

    Day {
        requireNonNull(date, "date");
        days = List.copyOf(days);
    }

    /** Alarms that are not back to normal. */
    long standing() {
        return days.stream().mapToLong(MachineDay::standing).sum();
    }

    @Override
    public String machine() {
        return Message.EVERY_MACHINE;
    }

    @Override
    public Message.Kind kind() {
        return Message.Kind.NOTICE;
    }

    @Override
    public String event() {
        return EVENT;
    }

    @Override
    public Grade grade() {
        return Grade.ADVISORY;
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        return wording.day(notification, this);
    }
}
