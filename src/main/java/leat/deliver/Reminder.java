package leat.deliver;

import static java.util.Objects.requireNonNull;

/**
 * Which call about an alarm that nobody acknowledged. Immutable.
 *
 * @param id alarm, revision since which it stands, what it is, and its number
 * @param event the word of the JSON
 */
record Reminder(String id, String event) {

    private static final String ESCALATED = "escalated";
    private static final String AGAIN = "again";

    Reminder {
        requireNonNull(id, "id");
        requireNonNull(event, "event");
    }

    static boolean isEvent(String event) {
        return event.equals(ESCALATED) || event.equals(AGAIN);
    }

    /** The first call on a route that is called only when nobody else answers. */
    static Reminder escalated(Unanswered alarm) {
        return of(alarm, ESCALATED, 1);
    }

    /**
     * @param times how many periods have passed, 1 or more
     */
    static Reminder again(Unanswered alarm, long times) {
        return of(alarm, AGAIN, times);
    }

    private static Reminder of(Unanswered alarm, String event, long number) {
        String id = alarm.latest().alarmId() + "/" + alarm.revision();
        return new Reminder(id + "/" + event + "/" + number, event);
    }
}
