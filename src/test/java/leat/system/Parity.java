package leat.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.signal.Input;
import leat.signal.SourceLost;
import leat.store.Run;
import leat.store.Said;
import leat.store.StoreReader;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;

/**
 * The law of parity on a real store: a fresh watch that is fed what the store holds, from the first
 * input on, says what the live run said, in the same order, to the same inputs, with the same times
 * and figures. The store must still hold its first input.
 *
 * <p>Where the configuration changed between two runs, the watch goes over to the new one where the
 * daemon did: at the loss with which a run begins.
 */
final class Parity {

    private final StoreReader reader;
    private final List<Run> runs;
    private final Map<String, Site> sites = new HashMap<>();

    private Parity(StoreReader reader) {
        this.reader = reader;
        List<Run> newestFirst = new ArrayList<>(reader.runs(Integer.MAX_VALUE));
        Collections.reverse(newestFirst);
        runs = List.copyOf(newestFirst);
    }

    /**
     * Checks every machine that the store knows.
     *
     * @return outcomes compared
     */
    static long assertHolds(Path database) {
        try (StoreReader reader = StoreReader.open(database)) {
            Parity parity = new Parity(reader);
            return reader.machines().stream().mapToLong(parity::compare).sum();
        }
    }

    private Site site(String hash) {
        return SiteFile.archived(reader.configText(hash).orElseThrow()).site().orElseThrow();
    }

    /** An outcome, what caused it, and the configuration that it was judged under. */
    private record Line(long seq, int nth, Outcome outcome, String configHash) {}

    private long compare(String machine) {
        List<Line> lived = new ArrayList<>();
        reader.outcomes(machine, 0, Long.MAX_VALUE, said -> lived.add(line(said)));
        List<Line> replayed = new Replay(machine).all();

        int same = 0;
        while (same < Math.min(lived.size(), replayed.size())
                && lived.get(same).equals(replayed.get(same))) {
            same++;
        }
        assertThat(next(replayed, same))
                .as(machine + ": first outcome that differs in replay, after " + same)
                .isEqualTo(next(lived, same));
        return same;
    }

    private static Line line(Said said) {
        return new Line(said.seq(), said.nth(), said.outcome(), said.configHash());
    }

    private static Optional<Line> next(List<Line> lines, int at) {
        return at < lines.size() ? Optional.of(lines.get(at)) : Optional.empty();
    }

    /** One machine's inputs through a watch. */
    private final class Replay {

        private final String machine;
        private final List<Line> lines = new ArrayList<>();
        private int run;
        private Watch watch;
        private long fed;

        Replay(String machine) {
            this.machine = machine;
            watch = new Watch(settings());
        }

        List<Line> all() {
            reader.inputs(machine, 0, Long.MAX_VALUE, this::feed);
            return lines;
        }

        private void feed(long seq, Input input) {
            assertThat(seq).as(machine + ": inputs are numbered without a hole").isEqualTo(++fed);
            if (seq == 1
                    || input instanceof SourceLost lost && lost.reason().equals(Tape.NOT_RUNNING)) {
                follow(input.atMicros());
            }
            int[] nth = {0};
            watch.feed(input, outcome -> lines.add(new Line(seq, nth[0]++, outcome, hash())));
        }

        /** Goes on to the run that this input came in. */
        private void follow(long atMicros) {
            WatchSettings before = settings();
            while (run + 1 < runs.size() && runs.get(run + 1).startedMicros() <= atMicros) {
                run++;
            }
            if (fed == 1) {
                watch = new Watch(settings());
            } else if (!settings().equals(before)) {
                watch = Watch.restore(settings(), watch.snapshot());
            }
        }

        private String hash() {
            return runs.get(run).configHash();
        }

        private WatchSettings settings() {
            Site site = sites.computeIfAbsent(hash(), Parity.this::site);
            MachineSettings settings = site.machine(machine).orElseThrow();
            return new WatchSettings(machine, settings.byChannel().keySet(), settings.limits());
        }
    }
}
