package leat.diagnose;

import java.util.ArrayList;
import java.util.List;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.rule.Finding;
import leat.wire.State;

/** What was seen of a machine lately, start by start; the newest {@link #MOST}. Thread-confined. */
public final class Observations {

    /** A machine's last starts tell more than one; what is older may be of another time. */
    public static final int MOST = 10;

    private List<Observation> all = new ArrayList<>();

    /** A start was measured and judged. */
    public void started(Startup startup) {
        put(of(startup.startedAtMicros()).with(startup));
    }

    /** A run is over, or lasts and has been looked at. */
    public void ran(Run run) {
        put(of(run.startedAtMicros()).with(run));
    }

    /** A stop was measured. */
    public void rested(RestSpell rest) {
        if (!all.isEmpty()) {
            put(last().with(rest));
        }
    }

    /** Something was raised. */
    public void found(Finding finding) {
        // the signal facts are still to be read from findings
    }

    /** The line was opened, or is to be learned anew: what was seen before says nothing of now. */
    public void forget() {
        all.clear();
    }

    /** Oldest first. */
    public List<Observation> all() {
        return List.copyOf(all);
    }

    private Observation last() {
        return all.get(all.size() - 1);
    }

    private Observation of(long startedAtMicros) {
        return all.stream()
                .filter(one -> one.startedAtMicros() == startedAtMicros)
                .findFirst()
                .orElseGet(() -> Observation.at(startedAtMicros));
    }

    private void put(Observation changed) {
        all.removeIf(one -> one.startedAtMicros() == changed.startedAtMicros());
        all.add(changed);
        if (all.size() > MOST) {
            all.remove(0);
        }
    }

    public void keep(State state) {
        all = new ArrayList<>(state.keep("all", Observation.class, all));
    }
}
