package leat.rule;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import leat.measure.Figure;
import leat.signal.Channel;
import leat.wire.State;

/**
 * Passes findings on and remembers which CRITICAL ones stand, because they explain others: a low
 * ratio is no news when the booster is starved. A rule that is explained is not judged, and begins
 * afresh when the explanation has gone. Thread-confined.
 */
final class CriticalFindings implements Findings {

    /** For each rule, those whose CRITICAL finding explains it. */
    private static final Map<Rule, List<Rule>> EXPLAINED_BY =
            Map.of(
                    Rule.RATIO, List.of(Rule.INLET, Rule.RISE),
                    Rule.LEVEL_LOW, List.of(Rule.INLET, Rule.RISE, Rule.RATIO),
                    Rule.BASELINE, List.of(Rule.INLET, Rule.RISE, Rule.RATIO));

    private final Findings next;
    private final Set<Rule> critical = EnumSet.noneOf(Rule.class);

    CriticalFindings(Findings next) {
        this.next = next;
    }

    @Override
    public void found(Finding finding) {
        if (finding.grade() == Grade.CRITICAL) {
            critical.add(finding.rule());
        } else {
            critical.remove(finding.rule());
        }
        next.found(finding);
    }

    @Override
    public void cleared(
            Rule rule,
            Channel channel,
            long atMicros,
            Figure inletPsi,
            Figure boostedPsi,
            List<Remark> now) {
        critical.remove(rule);
        next.cleared(rule, channel, atMicros, inletPsi, boostedPsi, now);
    }

    boolean isExplained(Rule rule) {
        for (Rule cause : EXPLAINED_BY.getOrDefault(rule, List.of())) {
            if (critical.contains(cause)) {
                return true;
            }
        }
        return false;
    }

    void keep(State state) {
        List<Rule> kept = state.keep("critical", Rule.class, List.copyOf(critical));
        critical.clear();
        critical.addAll(kept);
    }
}
