package leat.rule;

import java.util.List;
import java.util.Set;
import leat.signal.Channel;
import leat.wire.State;

/** Judges one thing each second and tells only changes. Thread-confined. */
interface Judge {

    /** The channels whose readings it rests on. */
    Set<Channel> restsOn();

    void tick(Situation situation, CriticalFindings findings);

    /**
     * A run has ended, or goes on and is judged by what has been seen of it.
     *
     * @return how it was, thing by thing
     */
    default List<RunVerdict.Part> judge(RunSeen run, CriticalFindings findings) {
        return List.of();
    }

    /** Nothing can be judged now: delays start afresh, what stands stays. */
    void pause();

    /** Forgets what it found, if it is of this rule, and tells that; it judges afresh. */
    void letGo(Rule rule, Situation situation, Findings findings);

    void keep(State state);
}
