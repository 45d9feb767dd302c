package leat.alarm;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.OptionalLong;

/**
 * What else is known of an alarm at a change. Immutable.
 *
 * @param own the state underneath; other than the one shown only while the alarm is held back
 * @param count how often the condition has come since the alarm was first raised; at least 1
 * @param chattering whether it comes and goes so often that repeats are only counted
 * @param shelvedUntilMicros when its shelf ends, microseconds UTC; empty when it is not shelved
 * @param why what a person wrote as the reason for what was done; empty where nobody did
 * @param reason why leat itself did it; empty for what a person did
 */
public record AlarmNotes(
        AlarmState own,
        int count,
        boolean chattering,
        OptionalLong shelvedUntilMicros,
        String why,
        Optional<Reason> reason) {

    public AlarmNotes {
        requireNonNull(own, "own");
        requireNonNull(shelvedUntilMicros, "shelvedUntilMicros");
        requireNonNull(why, "why");
        requireNonNull(reason, "reason");
        if (count < 1) {
            throw new IllegalArgumentException("an alarm came at least once, not " + count);
        }
    }

    /** Of an alarm that came once and that nothing holds back. */
    public static AlarmNotes plain(AlarmState state) {
        return new AlarmNotes(state, 1, false, OptionalLong.empty(), "", Optional.empty());
    }
}
