package leat.diagnose;

import java.util.List;

/**
 * What drawn machines are for, by their seed, so that none is ever judged that was tuned by: what
 * is fitted, tempered or judged refuses the others.
 */
public enum MachinesFor {
    TUNING(1, 1_000),
    JUDGING(1_001, 2_000),
    TEMPERING(2_001, 3_000);

    private final long from;
    private final long until;

    /**
     * @param until exclusive
     */
    MachinesFor(long from, long until) {
        this.from = from;
        this.until = until;
    }

    public boolean has(long seed) {
        return seed >= from && seed < until;
    }

    public long first() {
        return from;
    }

    /**
     * The same runs.
     *
     * @throws IllegalArgumentException where one of them is of a machine for something else
     */
    List<PlayedRun> only(List<PlayedRun> runs) {
        runs.forEach(
                run -> {
                    if (!has(run.seed())) {
                        throw new IllegalArgumentException(
                                run.whose() + " is not for " + this + ": seeds " + from + " on");
                    }
                });
        return runs;
    }
}
