package leat.rule;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.signal.Channel;
import leat.wire.State;

/**
 * Compares each start with what is usual for its machine. Several starts running must differ in the
 * same way before it is told; the finding stands until a start that does not differ. A start that
 * lacks a number neither adds to a run nor ends it. Thread-confined.
 */
final class BaselineJudge {

    private final Limits limits;
    private final Map<Deviation, Long> running = new EnumMap<>(Deviation.class);
    private final Map<Deviation, Long> sinceMicros = new EnumMap<>(Deviation.class);
    private Optional<Grade> standing = Optional.empty();

    BaselineJudge(Limits limits) {
        this.limits = limits;
        forget();
    }

    private void forget() {
        for (Deviation deviation : Deviation.values()) {
            running.put(deviation, 0L);
            sinceMicros.put(deviation, 0L);
        }
    }

    /**
     * What was usual is out of date: nothing is compared any more.
     *
     * @param because why
     */
    void outOfDate(long atMicros, Remark.Kind because, Findings findings) {
        forget();
        Figure unseen = Figure.absent(Absence.NOT_LOOKED_AT);
        clear(atMicros, unseen, unseen, because, findings);
    }

    /**
     * Compares a start that was measured.
     *
     * @param findings told when the rule's grade changes
     * @return in what it differs; empty when it does not
     */
    List<Remark> judge(Startup startup, Baseline baseline, CriticalFindings findings) {
        if (!startup.risen() || findings.isExplained(Rule.BASELINE)) {
            return List.of();
        }
        List<Deviation> on =
                Stream.of(Deviation.values()).filter(m -> look(m, startup, baseline)).toList();
        long needed = Math.round(limits.get(Limit.BASELINE_STARTS_RUNNING));
        List<Deviation> enough = on.stream().filter(m -> running.get(m) >= needed).toList();
        if (!enough.isEmpty()) {
            raise(enough, startup, baseline, findings);
        } else if (on.isEmpty() && running.values().stream().allMatch(run -> run < needed)) {
            clear(
                    startup.measuredAtMicros(),
                    startup.inletRunningPsi(),
                    startup.topPsi(),
                    Remark.Kind.AS_USUAL,
                    findings);
        }
        return unusual(on, needed);
    }

    /** Counts one deviation; true when the start differs in that way. */
    private boolean look(Deviation deviation, Startup startup, Baseline baseline) {
        Optional<Boolean> on = deviation.isOn(startup, baseline, limits);
        if (on.isEmpty()) {
            return false;
        }
        if (!on.get()) {
            running.put(deviation, 0L);
            return false;
        }
        if (running.merge(deviation, 1L, Long::sum) == 1) {
            sinceMicros.put(deviation, startup.startedAtMicros());
        }
        return true;
    }

    private List<Remark> unusual(List<Deviation> on, long needed) {
        return on.stream()
                .map(Deviation::measurand)
                .distinct()
                .map(m -> Remark.about(m, Remark.Kind.UNUSUAL, longestRunOf(m), needed))
                .toList();
    }

    private long longestRunOf(Measurand measurand) {
        return running.entrySet().stream()
                .filter(entry -> entry.getKey().measurand() == measurand)
                .mapToLong(Map.Entry::getValue)
                .max()
                .orElse(0);
    }

    private void raise(
            List<Deviation> enough, Startup startup, Baseline baseline, Findings findings) {
        Deviation gravest = enough.get(0);
        if (standing.equals(Optional.of(gravest.grade()))) {
            return;
        }
        standing = Optional.of(gravest.grade());
        Usual usual = baseline.usual(gravest.measurand()).orElseThrow();
        findings.found(
                new Finding(
                        Rule.BASELINE,
                        Channel.BOOSTED,
                        gravest.grade(),
                        Math.min(sinceMicros.get(gravest), startup.startedAtMicros()),
                        startup.measuredAtMicros(),
                        gravest.quantity(),
                        startup.figure(gravest.measurand()).get(),
                        gravest.allowed(usual, limits),
                        gravest.sense(),
                        startup.inletRunningPsi(),
                        startup.topPsi(),
                        remarks(enough, startup, baseline)));
    }

    private List<Remark> remarks(List<Deviation> enough, Startup startup, Baseline baseline) {
        List<Remark> remarks = new ArrayList<>();
        enough.stream()
                .filter(m -> m != Deviation.TOP_ADVISORY || !enough.contains(Deviation.TOP_WARNING))
                .forEach(deviation -> remarks.add(deviation.remark(startup, baseline)));
        long starts = running.get(enough.get(0));
        remarks.add(Remark.of(Remark.Kind.STARTS_RUNNING, starts, baseline.count()));
        return remarks;
    }

    private void clear(
            long atMicros, Figure inletPsi, Figure boostedPsi, Remark.Kind now, Findings findings) {
        if (standing.isPresent()) {
            standing = Optional.empty();
            findings.cleared(
                    Rule.BASELINE,
                    Channel.BOOSTED,
                    atMicros,
                    inletPsi,
                    boostedPsi,
                    List.of(Remark.of(now)));
        }
    }

    void keep(State state) {
        running.putAll(state.keep("running", Deviation.class, Long.class, running));
        sinceMicros.putAll(state.keep("sinceMicros", Deviation.class, Long.class, sinceMicros));
        standing = state.keep("standing", Grade.class, standing);
    }
}
