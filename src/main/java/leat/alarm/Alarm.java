package leat.alarm;

import leat.rule.Finding;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/**
 * One alarm, from when it is raised until it has returned and been acknowledged. Immutable.
 *
 * @param id stable id
 * @param revision number of the latest change
 * @param state where it is in its life
 * @param raisedAtMicros when it was last raised, microseconds UTC
 * @param finding the finding that stands or last stood
 */
record Alarm(String id, int revision, AlarmState state, long raisedAtMicros, Finding finding) {

    Alarm next(AlarmState nextState, Finding nextFinding) {
        return new Alarm(id, revision + 1, nextState, raisedAtMicros, nextFinding);
    }

    /** The condition came again before anybody had acknowledged the alarm. */
    Alarm again(AlarmState nextState, Finding nextFinding) {
        return new Alarm(id, revision + 1, nextState, nextFinding.atMicros(), nextFinding);
    }

    void save(StateWriter out) {
        out.putText(id);
        out.putInt(revision);
        out.putInt(state.ordinal());
        out.putLong(raisedAtMicros);
        finding.save(out);
    }

    static Alarm load(StateReader in) {
        return new Alarm(
                in.getText(),
                in.getInt(),
                AlarmState.values()[in.getInt()],
                in.getLong(),
                Finding.load(in));
    }
}
