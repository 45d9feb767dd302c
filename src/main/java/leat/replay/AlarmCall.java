package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.OptionalLong;
import leat.rule.Finding;
import leat.rule.Grade;

/**
 * One call of an alarm: from its raising until it returned. Whether anybody acknowledged or shelved
 * it makes no difference: nobody can do that to an alarm that would have come. What comes while the
 * machine is in service is one only when it is still active at the end, from then on.
 *
 * @param gravest the finding of the gravest grade that it had, as it was first found
 * @param raisedAtMicros event time, microseconds UTC
 * @param returnedAtMicros event time; empty while it stands at the end of the past
 * @param fromInput place in the past, counted in inputs, of the one that raised it: unlike the time
 *     it only grows
 * @param toInput place of the input by which it returned, or of the last one
 */
public record AlarmCall(
        Finding gravest,
        long raisedAtMicros,
        OptionalLong returnedAtMicros,
        long fromInput,
        long toInput) {

    public AlarmCall {
        requireNonNull(gravest, "gravest");
        requireNonNull(returnedAtMicros, "returnedAtMicros");
        if (toInput < fromInput) {
            throw new IllegalArgumentException(fromInput + " to " + toInput + " runs backwards");
        }
    }

    public Grade grade() {
        return gravest.grade();
    }

    /** True when both stood at some input. */
    boolean overlaps(AlarmCall other) {
        return fromInput <= other.toInput && other.fromInput <= toInput;
    }
}
