package leat.cli;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.replay.Backtest;
import leat.replay.StoredSpan;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.store.Run;
import leat.store.StoreReader;
import leat.watch.WatchSettings;

/**
 * What a backtest of one machine judges by. Its limits are those that would be changed: today's,
 * whatever held in the time that is judged. Its channels are those that were wired then.
 *
 * @param span all of it
 * @param source where the limits are from
 * @param before the limits as they are
 * @param after with the changes put over them
 * @param configs configurations under which leat ran in that time
 * @param stretches in their order, at least one
 */
record BacktestPlan(
        StoredSpan span,
        Source source,
        Limits before,
        Limits after,
        int configs,
        List<Backtest.Stretch> stretches) {

    /** Where the limits as they are come from. */
    enum Source {
        SITE,
        LAST_RUN,
        DEFAULTS
    }

    BacktestPlan {
        requireNonNull(span, "span");
        requireNonNull(source, "source");
        requireNonNull(before, "before");
        requireNonNull(after, "after");
        stretches = List.copyOf(stretches);
    }

    String machine() {
        return span.machine();
    }

    /**
     * @param today the site as it is now, where one was chosen
     * @param changes limits to put over those that hold
     * @throws IllegalArgumentException when they contradict those
     */
    static BacktestPlan of(
            StoreReader reader, StoredSpan span, Optional<Site> today, Map<Limit, Double> changes) {
        History history = new History(reader, span);
        Optional<MachineSettings> now = today.flatMap(s -> s.machine(span.machine()));
        Optional<MachineSettings> last = history.last();
        Source source =
                now.isPresent()
                        ? Source.SITE
                        : last.isPresent() ? Source.LAST_RUN : Source.DEFAULTS;
        Limits before = now.or(() -> last).map(MachineSettings::limits).orElse(Limits.DEFAULTS);
        Limits after = with(before, changes);
        Set<Channel> unknown = now.or(() -> last).map(BacktestPlan::wired).orElse(pressures());
        List<Backtest.Stretch> stretches = new ArrayList<>();
        for (Wiring wiring : history.wirings(unknown)) {
            WatchSettings known =
                    new WatchSettings(span.machine(), wiring.wired(), before)
                            .knowing(wiring.span().baseline());
            stretches.add(
                    new Backtest.Stretch(
                            known.judgedBy(before), known.judgedBy(after), wiring.span()));
        }
        return new BacktestPlan(span, source, before, after, history.configs().size(), stretches);
    }

    private static Limits with(Limits limits, Map<Limit, Double> changes) {
        Map<Limit, Double> merged = new EnumMap<>(Limit.class);
        merged.putAll(limits.changed());
        merged.putAll(changes);
        return Limits.with(merged);
    }

    private static Set<Channel> wired(MachineSettings machine) {
        return EnumSet.copyOf(machine.byChannel().keySet());
    }

    private static Set<Channel> pressures() {
        return EnumSet.of(Channel.INLET, Channel.BOOSTED);
    }

    /** A part of the span and the channels that were wired in it. */
    private record Wiring(StoredSpan span, Set<Channel> wired) {}

    /** The runs in which the span came to be. */
    private static final class History {

        private final StoreReader reader;
        private final StoredSpan span;
        private final List<Run> runs;
        private final Map<String, Optional<MachineSettings>> machines = new HashMap<>();

        History(StoreReader reader, StoredSpan span) {
            this.reader = reader;
            this.span = span;
            runs = new ArrayList<>(reader.runs(Integer.MAX_VALUE));
            Collections.reverse(runs); // oldest first
        }

        private Optional<MachineSettings> machine(Run run) {
            return machines.computeIfAbsent(
                    run.configHash(),
                    hash ->
                            reader.configText(hash)
                                    .flatMap(text -> SiteFile.archived(text).site())
                                    .flatMap(site -> site.machine(span.machine())));
        }

        /** The machine as the newest run that has it knew it. */
        Optional<MachineSettings> last() {
            return runs.stream().map(this::machine).flatMap(Optional::stream).reduce((a, b) -> b);
        }

        /** Number of the first input of a run or after it; empty when there was none. */
        private OptionalLong first(Run run) {
            return reader.firstSeqAt(span.machine(), run.startedMicros());
        }

        Set<String> configs() {
            Set<String> hashes = new LinkedHashSet<>(List.of(span.configHash()));
            for (Run run : runs) {
                OptionalLong first = first(run);
                if (first.isPresent()
                        && first.getAsLong() > span.afterSeq() + 1
                        && first.getAsLong() <= span.toSeq()) {
                    hashes.add(run.configHash());
                }
            }
            return hashes;
        }

        /**
         * @param unknown the channels where no configuration of that time can be read
         */
        List<Wiring> wirings(Set<Channel> unknown) {
            List<Wiring> done = new ArrayList<>();
            Set<Channel> wired = unknown;
            long after = span.afterSeq();
            for (Run run : runs) {
                Set<Channel> next = machine(run).map(BacktestPlan::wired).orElse(wired);
                long first = first(run).orElse(Long.MAX_VALUE);
                if (first > span.toSeq()) {
                    break;
                }
                if (!next.equals(wired) && first > after + 1) {
                    done.add(new Wiring(part(after, first - 1), wired));
                    after = first - 1;
                }
                wired = next;
            }
            done.add(new Wiring(part(after, span.toSeq()), wired));
            return done;
        }

        private StoredSpan part(long afterSeq, long toSeq) {
            return new StoredSpan(reader, span.machine(), afterSeq, toSeq, span.configHash());
        }
    }
}
