package leat.watch;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.alarm.AlarmChange;
import leat.diagnose.Observation;
import leat.diagnose.SignalFact;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.rule.Finding;
import leat.rule.Remark;
import leat.rule.Rule;

/**
 * Hears what a watch says and puts it together, run by run, as a diagnosis sees it.
 * Thread-confined.
 */
final class WitnessedRuns {

    private final List<Startup> starts = new ArrayList<>();
    private final List<Run> runs = new ArrayList<>();
    private final List<RestSpell> rests = new ArrayList<>();
    private final List<Said> signals = new ArrayList<>();
    private final Map<Rule, Set<SignalFact>> standing = new EnumMap<>(Rule.class);

    /** What stood of signals since a time. */
    private record Said(long atMicros, Set<SignalFact> facts) {}

    void hear(Outcome outcome) {
        if (outcome instanceof Outcome.StartupMeasured measured) {
            starts.add(measured.startup());
        } else if (outcome instanceof Outcome.RunJudged judged && judged.run().over()) {
            runs.add(judged.run());
        } else if (outcome instanceof Outcome.RestMeasured measured) {
            rests.add(measured.spell());
        } else if (outcome instanceof Outcome.AlarmChanged changed) {
            alarm(changed.change());
        }
    }

    private void alarm(AlarmChange change) {
        Rule rule = change.finding().rule();
        if (!rule.isAboutSignal() || rule == Rule.SIGNAL_CLOCK) {
            return;
        }
        Set<SignalFact> facts = standing.computeIfAbsent(rule, r -> new LinkedHashSet<>());
        facts.removeIf(fact -> fact.channel() == change.finding().channel());
        if (change.to().isActive()) {
            facts.add(new SignalFact(kind(change.finding()), change.finding().channel()));
        }
        Set<SignalFact> all = new LinkedHashSet<>();
        standing.values().forEach(all::addAll);
        signals.add(new Said(change.atMicros(), all));
    }

    private static SignalFact.Kind kind(Finding finding) {
        boolean never =
                finding.remarks().stream()
                        .anyMatch(
                                remark ->
                                        remark.kind() == Remark.Kind.NEVER_RIGHT
                                                || remark.kind() == Remark.Kind.NEVER_MOVED);
        return switch (finding.rule()) {
            case SIGNAL_STUCK -> SignalFact.Kind.STUCK;
            case SIGNAL_SWAPPED -> SignalFact.Kind.SWAPPED;
            case SIGNAL_MISSING ->
                    finding.quantity() == Finding.Quantity.RATIO
                            ? SignalFact.Kind.LOOSE
                            : SignalFact.Kind.OPEN;
            default -> never ? SignalFact.Kind.NEVER_RIGHT : SignalFact.Kind.OPEN;
        };
    }

    /**
     * What was seen of the run that began in that time, the longest if there were several; empty
     * where none was seen.
     */
    Optional<Observation> between(long fromMicros, long toMicros) {
        Optional<Run> run =
                runs.stream()
                        .filter(r -> isIn(r.startedAtMicros(), fromMicros, toMicros))
                        .reduce((a, b) -> length(a) >= length(b) ? a : b);
        Optional<Startup> start =
                starts.stream()
                        .filter(s -> isIn(s.startedAtMicros(), fromMicros, toMicros))
                        .filter(
                                s ->
                                        run.isEmpty()
                                                || s.startedAtMicros()
                                                        == run.get().startedAtMicros())
                        .reduce((a, b) -> b);
        Optional<RestSpell> rest =
                rests.stream()
                        .filter(r -> isIn(r.stoppedAtMicros(), fromMicros, toMicros))
                        .reduce((a, b) -> b);
        List<SignalFact> facts = facts(fromMicros, toMicros);
        if (run.isEmpty() && start.isEmpty() && facts.isEmpty()) {
            return Optional.empty();
        }
        long at =
                start.map(Startup::startedAtMicros)
                        .or(() -> run.map(Run::startedAtMicros))
                        .orElse(fromMicros);
        return Optional.of(new Observation(at, start, run, rest, facts));
    }

    private List<SignalFact> facts(long fromMicros, long toMicros) {
        Set<SignalFact> all = new LinkedHashSet<>();
        Set<SignalFact> before = Set.of();
        for (Said said : signals) {
            if (said.atMicros() < fromMicros) {
                before = said.facts();
            } else if (said.atMicros() < toMicros) {
                all.addAll(said.facts());
            }
        }
        all.addAll(before);
        return List.copyOf(all);
    }

    private static long length(Run run) {
        return run.endedAtMicros() - run.startedAtMicros();
    }

    private static boolean isIn(long atMicros, long fromMicros, long toMicros) {
        return atMicros >= fromMicros && atMicros < toMicros;
    }
}
