package leat.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.signal.Channel;
import leat.wire.State;

/**
 * Compares each start, run and stop with what is usual for its machine. Several running must differ
 * in the same way before it is told, fewer where they differ by far. The finding stands until one
 * that does not differ. One that lacks a number neither adds to a row nor ends it. Thread-confined.
 */
final class BaselineJudge {

    private final long startsRunning;
    private final Limits limits;
    private final Map<Seen.Of, Tally> tallies = new EnumMap<>(Seen.Of.class);
    private Optional<Grade> standing = Optional.empty();

    BaselineJudge(Limits limits) {
        this.limits = limits;
        startsRunning = Math.round(limits.get(Limit.BASELINE_STARTS_RUNNING));
        for (Seen.Of of : Seen.Of.values()) {
            tallies.put(of, new Tally());
        }
    }

    /**
     * What was usual is out of date: nothing is compared any more.
     *
     * @param because why
     */
    void outOfDate(long atMicros, Remark.Kind because, Findings findings) {
        tallies.values().forEach(Tally::forget);
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
        return startup.risen() ? judge(Seen.of(startup), baseline, findings) : List.of();
    }

    /** Compares a run that is over, or as much as there is of one that lasts. */
    void judge(Run run, Baseline baseline, CriticalFindings findings) {
        judge(Seen.of(run), baseline, findings);
    }

    /** Compares a stop. */
    void judge(RestSpell rest, Baseline baseline, CriticalFindings findings) {
        judge(Seen.of(rest), baseline, findings);
    }

    private List<Remark> judge(Seen seen, Baseline baseline, CriticalFindings findings) {
        if (findings.isExplained(Rule.BASELINE)) {
            return List.of();
        }
        List<Difference> compared =
                Stream.of(Deviation.values())
                        .flatMap(way -> Difference.of(way, seen, baseline, limits).stream())
                        .toList();
        Tally tally = tallies.get(seen.of());
        tally.count(compared, seen, startsRunning);
        List<Difference> on = compared.stream().filter(Difference::isOn).toList();
        Optional<Grade> gravest = gravest();
        if (gravest.isPresent() && !gravest.equals(standing)) {
            raise(gravest.get(), seen, baseline, findings);
        } else if (gravest.isEmpty() && on.isEmpty()) {
            clear(
                    seen.atMicros(),
                    seen.inletPsi(),
                    seen.boostedPsi(),
                    Remark.Kind.AS_USUAL,
                    findings);
        }
        return unusual(on, tally);
    }

    private Optional<Grade> gravest() {
        return tallies.values().stream()
                .flatMap(tally -> tally.grade().stream())
                .max(Comparator.naturalOrder());
    }

    /** One remark for each number that differs. */
    private List<Remark> unusual(List<Difference> on, Tally tally) {
        Map<Measurand, Difference> each = new EnumMap<>(Measurand.class);
        for (Difference next : on) {
            each.merge(next.measurand(), next, (a, b) -> runsLonger(a, b, tally) ? a : b);
        }
        return each.values().stream().map(difference -> unusual(difference, tally)).toList();
    }

    private static boolean runsLonger(Difference a, Difference b, Tally tally) {
        return tally.running(a.deviation()) >= tally.running(b.deviation());
    }

    private Remark unusual(Difference difference, Tally tally) {
        return Remark.about(
                difference.measurand(),
                Remark.Kind.UNUSUAL,
                tally.running(difference.deviation()),
                difference.needed(startsRunning));
    }

    private void raise(Grade grade, Seen seen, Baseline baseline, Findings findings) {
        standing = Optional.of(grade);
        Seen.Of of =
                Stream.concat(Stream.of(seen.of()), tallies.keySet().stream())
                        .filter(kind -> tallies.get(kind).grade().equals(standing))
                        .findFirst()
                        .orElseThrow();
        Tally tally = tallies.get(of);
        Difference gravest = tally.enough().get(0);
        findings.found(
                new Finding(
                        Rule.BASELINE,
                        Channel.BOOSTED,
                        grade,
                        Math.min(tally.sinceMicros(gravest.deviation()), seen.fromMicros()),
                        seen.atMicros(),
                        gravest.quantity(),
                        gravest.value(),
                        gravest.limit(),
                        gravest.deviation().sense(),
                        seen.inletPsi(),
                        seen.boostedPsi(),
                        remarks(of, tally, baseline)));
    }

    private static List<Remark> remarks(Seen.Of of, Tally tally, Baseline baseline) {
        List<Remark> remarks = new ArrayList<>();
        List<Difference> told = new ArrayList<>();
        for (Difference difference : tally.enough()) {
            if (told.stream().noneMatch(d -> d.deviation().isSameAs(difference.deviation()))) {
                told.add(difference);
                remarks.add(difference.remark());
            }
        }
        if (of == Seen.Of.RUN) {
            remarks.add(Remark.of(Remark.Kind.OVER_THE_RUN));
        }
        long running = Math.max(1, tally.running(told.get(0).deviation()));
        remarks.add(Remark.of(Remark.Kind.STARTS_RUNNING, running, baseline.count()));
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
        state.part("starts", tallies.get(Seen.Of.START)::keep);
        state.part("runs", tallies.get(Seen.Of.RUN)::keep);
        state.part("rests", tallies.get(Seen.Of.REST)::keep);
        standing = state.keep("standing", Grade.class, standing);
    }
}
