package leat.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Reading;
import leat.store.Run;
import leat.store.StoreReader;

/**
 * What each run of leat left in the store, by sequence, whatever its clock said. Confined to the
 * test's thread.
 */
final class Lives {

    /**
     * One run.
     *
     * @param deadMicros when it was dead, by its own clock, microseconds UTC
     * @param lastSeqs of each machine
     */
    private record Life(Run run, long deadMicros, Map<String, Long> lastSeqs) {}

    private final Ledger ledger;
    private final List<Life> lives = new ArrayList<>();
    private int runs;

    Lives(Ledger ledger) {
        this.ledger = ledger;
    }

    /**
     * To be called when a run is over; one that has not come as far as the store leaves nothing.
     */
    void over(long deadMicros) {
        List<Run> all = ledger.runs();
        if (all.size() > runs) {
            assertThat(all).hasSize(runs + 1);
            lives.add(new Life(all.get(runs), deadMicros, lastSeqs()));
            runs = all.size();
        }
    }

    private Map<String, Long> lastSeqs() {
        Map<String, Long> seqs = new LinkedHashMap<>();
        try (StoreReader reader = ledger.reader()) {
            reader.machines().forEach(machine -> seqs.put(machine, reader.lastSeq(machine)));
        }
        return seqs;
    }

    /**
     * After every restart the first thing that is known of each channel is that leat was not
     * running, and nothing was read before its run began or after it was dead.
     *
     * @return restarts of which an input was committed
     */
    int assertEachIsKnownForWhatItWas(Tape tape, Set<Channel> wired) {
        int restarts = 0;
        int from = 0;
        for (Life life : lives) {
            int to = Math.toIntExact(life.lastSeqs().getOrDefault(tape.machine(), 0L));
            List<Input> inputs = tape.inputs().subList(from, to);
            assertThat(inputs).filteredOn(Reading.class::isInstance).allMatch(r -> isIn(life, r));
            if (from > 0 && to > from) {
                tape.assertBeginsLost(inputs, wired);
                restarts++;
            }
            from = to;
        }
        assertThat(from).isEqualTo(tape.inputs().size());
        return restarts;
    }

    private static boolean isIn(Life life, Input input) {
        return input.atMicros() >= life.run().startedMicros()
                && input.atMicros() <= life.deadMicros();
    }

    /** How often a machine was told that the clock was set while leat was down. */
    static long steps(Tape tape) {
        return tape.inputs().stream().filter(ClockStep.class::isInstance).count();
    }
}
