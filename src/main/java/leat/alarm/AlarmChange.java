package leat.alarm;

import static java.util.Objects.requireNonNull;

import leat.rule.Finding;

/**
 * An alarm went from one state to another, or changed its grade.
 *
 * @param alarmId stable id, such as {@code jet-1.ratio.20260105T060031Z-7}, until the alarm has
 *     returned and been acknowledged, and longer while it comes again within the chatter window;
 *     made from event time, so a replay gives the same
 * @param revision 1 for the first change of this alarm, then counting; id and revision together
 *     name a change for ever
 * @param event what happened
 * @param from state before, as people are shown it
 * @param to state after, likewise
 * @param atMicros event time, microseconds UTC
 * @param raisedAtMicros when it was last raised, microseconds UTC
 * @param finding the finding that stands, or for a return the last that stood
 * @param by who acknowledged, shelved and so on; empty for what no person did
 * @param notes what else is known of it after the change
 */
public record AlarmChange(
        String alarmId,
        int revision,
        AlarmEvent event,
        AlarmState from,
        AlarmState to,
        long atMicros,
        long raisedAtMicros,
        Finding finding,
        String by,
        AlarmNotes notes) {

    public AlarmChange {
        requireNonNull(alarmId, "alarmId");
        requireNonNull(event, "event");
        requireNonNull(from, "from");
        requireNonNull(to, "to");
        requireNonNull(finding, "finding");
        requireNonNull(by, "by");
        requireNonNull(notes, "notes");
    }

    /** A change of an alarm that came once and that nothing holds back. */
    public AlarmChange(
            String alarmId,
            int revision,
            AlarmEvent event,
            AlarmState from,
            AlarmState to,
            long atMicros,
            long raisedAtMicros,
            Finding finding,
            String by) {
        this(
                alarmId,
                revision,
                event,
                from,
                to,
                atMicros,
                raisedAtMicros,
                finding,
                by,
                AlarmNotes.plain(to));
    }

    /** True when somebody is called: the alarm came, got worse, or is active as a hold ends. */
    public boolean isCall() {
        return switch (event) {
            case RAISED, WORSENED, CHATTERING -> !to.isHeld();
            case UNSHELVED, RELEASED, RESTORED -> to.isActive();
            case EASED,
                    RETURNED,
                    ACKNOWLEDGED,
                    LATCHED,
                    RESET,
                    SHELVED,
                    SUPPRESSED,
                    REMOVED,
                    REPEATED,
                    SETTLED ->
                    false;
        };
    }

    /** True for what is only written down: nobody is told, whatever they were told before. */
    public boolean isSilent() {
        return switch (event) {
            case RAISED, WORSENED, CHATTERING, EASED, RETURNED, LATCHED -> to.isHeld();
            case UNSHELVED, RELEASED, RESTORED -> to.isHeld();
            case REPEATED, SETTLED -> true;
            case ACKNOWLEDGED, RESET, SHELVED, SUPPRESSED, REMOVED -> false;
        };
    }

    /** True for the begin and the end of a hold. */
    public boolean isAboutHold() {
        return switch (event) {
            case SHELVED, UNSHELVED, SUPPRESSED, RELEASED, REMOVED, RESTORED -> true;
            case RAISED,
                    WORSENED,
                    CHATTERING,
                    EASED,
                    RETURNED,
                    LATCHED,
                    REPEATED,
                    SETTLED,
                    ACKNOWLEDGED,
                    RESET ->
                    false;
        };
    }
}
