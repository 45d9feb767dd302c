package leat.alarm;

import java.util.Optional;
import leat.signal.Instruction;

/**
 * What happens to an alarm and, where a person did it, by whom and why. Immutable.
 *
 * @param event the step of its life
 * @param atMicros event time, microseconds UTC
 * @param by the person; empty where nobody did it
 * @param why the reason that a person gave; empty where none is needed
 * @param reason why leat itself did it, where it needs a reason
 */
record Act(AlarmEvent event, long atMicros, String by, String why, Optional<Reason> reason) {

    static Act of(AlarmEvent event, long atMicros) {
        return new Act(event, atMicros, "", "", Optional.empty());
    }

    static Act because(Reason reason, AlarmEvent event, long atMicros) {
        return new Act(event, atMicros, "", "", Optional.of(reason));
    }

    static Act by(Instruction instruction, AlarmEvent event, String why) {
        return new Act(event, instruction.atMicros(), instruction.by(), why, Optional.empty());
    }

    /** Because work on the machine began or ended. */
    static Act by(ServiceChange change, AlarmEvent event) {
        return new Act(event, change.atMicros(), change.by(), change.why(), change.reason());
    }
}
