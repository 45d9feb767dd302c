package leat.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.rule.Finding;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.wire.State;

/**
 * What was seen of a machine, start by start; the newest so many. A start, its run and the stop
 * after it are told one by one, in the order in which they are measured; what comes in any other
 * order does no harm. Thread-confined.
 */
public final class Observations {

    /** A machine's last starts tell more than one; what is older may be of another time. */
    public static final int MOST = 10;

    /** A loop that breaks off so often in one run is loose; own choice. */
    private static final double LEAST_BREAKS = 2;

    private static final Figure UNSEEN = Figure.absent(Absence.NOT_LOOKED_AT);

    private final int most;
    private List<Observation> all = new ArrayList<>();
    private List<Standing> standing = new ArrayList<>();

    /** What is wrong with a channel now, and the rule that says so. */
    private record Standing(Rule rule, SignalFact fact) {

        boolean isOf(Rule finder, Channel channel) {
            return rule == finder && fact.channel() == channel;
        }
    }

    private Observations(int most) {
        this.most = most;
    }

    /** Remembers the newest {@link #MOST}. */
    public static Observations latest() {
        return new Observations(MOST);
    }

    /** Remembers all that it is told. */
    public static Observations unlimited() {
        return new Observations(Integer.MAX_VALUE);
    }

    /**
     * The booster starts, or is seen running after an unseen start: what is told from now on is of
     * another observation than before.
     */
    public void begins(long atMicros) {
        if (!all.isEmpty() && holdsNothing(last())) {
            replaceLast(opened(atMicros));
        } else {
            add(opened(atMicros));
        }
    }

    /** What looked like a start was none. */
    public void wasNone() {
        if (!all.isEmpty() && !last().isOver()) {
            replaceLast(last().withoutStartAndRun());
        }
    }

    /** As much of a start as has been measured; of one that still climbs it will be told again. */
    public void started(Startup startup) {
        put(startup.startedAtMicros(), startup.measuredAtMicros(), one -> one.with(startup));
    }

    /** A start says nothing: broken off, or its readings are not believed. */
    public void saysNothing(Startup startup) {
        put(
                startup.startedAtMicros(),
                startup.measuredAtMicros(),
                one -> one.withoutStart(startup.startedAtMicros()));
    }

    /** A run is over, or lasts and has been looked at. */
    public void ran(Run run) {
        put(run.startedAtMicros(), run.endedAtMicros(), one -> withLooseLoops(one.with(run), run));
    }

    private static Observation withLooseLoops(Observation one, Run run) {
        Observation seen = one;
        for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED)) {
            SignalFact loose = new SignalFact(SignalFact.Kind.LOOSE, channel);
            if (breaks(run, channel) >= LEAST_BREAKS && !seen.signals().contains(loose)) {
                seen = seen.with(loose);
            }
        }
        return seen;
    }

    private static double breaks(Run run, Channel channel) {
        return run.figure(
                        channel == Channel.INLET
                                ? Measurand.INLET_BREAKS
                                : Measurand.BOOSTED_BREAKS)
                .orElse(0);
    }

    /** A stop was measured; it belongs to the start before it. */
    public void rested(RestSpell rest) {
        int place =
                place(one -> one.startedAtMicros() <= rest.stoppedAtMicros() && !holdsNothing(one));
        if (place < 0) {
            all.add(0, Observation.at(rest.stoppedAtMicros()).with(rest));
            trim();
        } else {
            Observation one = all.get(place);
            all.set(place, one.with(one.rest().map(told -> both(told, rest)).orElse(rest)));
        }
    }

    /** A stop that is told in two parts. */
    private static RestSpell both(RestSpell before, RestSpell after) {
        return new RestSpell(
                before.stoppedAtMicros(),
                after.measuredAtMicros(),
                either(after.boostedPsi(), before.boostedPsi()),
                either(after.inletPsi(), before.inletPsi()),
                either(before.fallSeconds(), after.fallSeconds()),
                after.settled() || before.settled());
    }

    private static Figure either(Figure one, Figure other) {
        return one.isPresent() ? one : other;
    }

    /** Something was raised, or is graver or milder than it was. */
    public void found(Finding finding) {
        if (finding.rule() == Rule.REST) {
            rests(finding);
        }
        fact(finding)
                .ifPresent(
                        fact -> {
                            Standing stands = new Standing(finding.rule(), fact);
                            if (!standing.contains(stands)) {
                                standing.add(stands);
                            }
                            if (all.isEmpty()) {
                                add(opened(finding.sinceMicros()));
                            } else {
                                replaceLast(last().with(fact));
                            }
                        });
    }

    /** What a rule had found has gone. */
    public void gone(Rule rule, Channel channel) {
        standing.removeIf(each -> each.isOf(rule, channel));
    }

    /** A valve may begin to leak long after the stop was measured. */
    private void rests(Finding finding) {
        if (finding.boostedPsi().isPresent()) {
            rested(
                    new RestSpell(
                            finding.sinceMicros(),
                            finding.atMicros(),
                            finding.boostedPsi(),
                            finding.inletPsi(),
                            UNSEEN,
                            true));
        }
    }

    private static Optional<SignalFact> fact(Finding finding) {
        return kind(finding).map(kind -> new SignalFact(kind, finding.channel()));
    }

    private static Optional<SignalFact.Kind> kind(Finding finding) {
        return switch (finding.rule()) {
            case SIGNAL_MISSING ->
                    finding.isOfSilence() ? Optional.empty() : Optional.of(SignalFact.Kind.LOOSE);
            case SIGNAL_BAD -> Optional.of(bad(finding));
            case SIGNAL_STUCK -> Optional.of(SignalFact.Kind.STUCK);
            case SIGNAL_SWAPPED -> Optional.of(SignalFact.Kind.SWAPPED);
            case SIGNAL_CLOCK,
                    RATIO,
                    LEVEL_LOW,
                    LEVEL_HIGH,
                    RISE,
                    REST,
                    INLET,
                    BASELINE,
                    FILTER_LOSS ->
                    Optional.empty();
        };
    }

    private static SignalFact.Kind bad(Finding finding) {
        if (finding.remarks().stream().anyMatch(Observations::isOfNeverRight)) {
            return SignalFact.Kind.NEVER_RIGHT;
        }
        boolean isLoose =
                isReadNow(finding) && finding.remarks().stream().noneMatch(Observations::isAtTop);
        return isLoose ? SignalFact.Kind.LOOSE : SignalFact.Kind.OPEN;
    }

    private static boolean isOfNeverRight(Remark remark) {
        return remark.kind() == Remark.Kind.NEVER_RIGHT || remark.kind() == Remark.Kind.NEVER_MOVED;
    }

    /** A shorted loop gives a number that is read, and is no pressure. */
    private static boolean isAtTop(Remark remark) {
        return remark.kind() == Remark.Kind.QUALITY && remark.about().equals(Quality.AT_TOP.key());
    }

    /** Between the readings that are no good come others that are. */
    private static boolean isReadNow(Finding finding) {
        return switch (finding.channel()) {
            case INLET -> finding.inletPsi().isPresent();
            case BOOSTED -> finding.boostedPsi().isPresent();
            case FILTERED, RUNNING, VALVE, CUTTING -> false;
        };
    }

    /**
     * The line was opened, or is to be learned anew: what was seen before says nothing of now. What
     * is wrong with a channel still is.
     */
    public void forget() {
        all.clear();
    }

    /** Oldest first. */
    public List<Observation> all() {
        return all.stream().filter(one -> !one.isEmpty()).toList();
    }

    /** The one in which a time lies, and all after it. */
    public List<Observation> since(long micros) {
        List<Observation> seen = all();
        int first = seen.size() - 1;
        while (first > 0 && seen.get(first).startedAtMicros() > micros) {
            first--;
        }
        return first < 0 ? seen : seen.subList(first, seen.size());
    }

    /** The one of this start. */
    public Optional<Observation> of(long startedAtMicros) {
        return all.stream().filter(one -> one.isOf(startedAtMicros)).findFirst();
    }

    /** What is told now is of a run that was told of before. */
    public boolean lasts() {
        return !all.isEmpty() && !last().isOver();
    }

    private Observation last() {
        return all.get(all.size() - 1);
    }

    /** Nothing but what has been wrong with the channels before it. */
    private boolean holdsNothing(Observation one) {
        return one.start().isEmpty()
                && one.run().isEmpty()
                && one.rest().isEmpty()
                && standing.stream().map(Standing::fact).toList().containsAll(one.signals());
    }

    private Observation opened(long atMicros) {
        Observation opened = Observation.at(atMicros);
        for (Standing each : standing) {
            opened = opened.with(each.fact());
        }
        return opened;
    }

    /** Changes the one of this start, or the one that had begun by then, or makes one. */
    private void put(long startedMicros, long byMicros, UnaryOperator<Observation> change) {
        int place = place(one -> one.isOf(startedMicros));
        if (place < 0) {
            place = place(one -> one.startedAtMicros() <= byMicros && !one.isOver());
        }
        if (place < 0) {
            add(change.apply(opened(startedMicros)));
        } else {
            all.set(place, change.apply(all.get(place)));
        }
    }

    /** Of the newest such; -1 where there is none. */
    private int place(Predicate<Observation> such) {
        for (int i = all.size() - 1; i >= 0; i--) {
            if (such.test(all.get(i))) {
                return i;
            }
        }
        return -1;
    }

    private void replaceLast(Observation changed) {
        all.set(all.size() - 1, changed);
    }

    private void add(Observation one) {
        all.add(one);
        trim();
    }

    private void trim() {
        while (all.size() > most) {
            all.remove(0);
        }
    }

    public void keep(State state) {
        all = new ArrayList<>(state.keep("all", Observation.class, all));
        standing = new ArrayList<>(state.keep("standing", Standing.class, standing));
    }
}
