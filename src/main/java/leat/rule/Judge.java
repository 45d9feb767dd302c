package leat.rule;

import leat.signal.StateReader;
import leat.signal.StateWriter;

/** Judges one thing each second and tells only changes. Thread-confined. */
interface Judge {

    void tick(Situation situation, Findings findings);

    void save(StateWriter out);

    void load(StateReader in);
}
