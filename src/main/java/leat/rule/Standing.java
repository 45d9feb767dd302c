package leat.rule;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Figure;
import leat.signal.Channel;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/**
 * What stands of a machine, and what of it is told: a finding that follows from a graver one is
 * held back while that one stands. A low ratio is no news when the booster is starved.
 * Thread-confined.
 */
final class Standing implements Findings {

    /** For each rule, those whose CRITICAL finding explains it. */
    private static final Map<Rule, List<Rule>> EXPLAINED_BY =
            Map.of(
                    Rule.RISE, List.of(Rule.INLET),
                    Rule.RATIO, List.of(Rule.INLET, Rule.RISE),
                    Rule.LEVEL_LOW, List.of(Rule.INLET, Rule.RISE, Rule.RATIO));

    private final Findings next;
    private final Map<Rule, Grade> standing = new EnumMap<>(Rule.class);
    private final Map<Rule, Finding> held = new EnumMap<>(Rule.class);
    private final Map<Rule, Grade> told = new EnumMap<>(Rule.class);

    Standing(Findings next) {
        this.next = next;
    }

    @Override
    public void found(Finding finding) {
        if (!EXPLAINED_BY.containsKey(finding.rule()) && finding.rule() != Rule.INLET) {
            next.found(finding);
            return;
        }
        standing.put(finding.rule(), finding.grade());
        if (isExplained(finding.rule()) && !told.containsKey(finding.rule())) {
            held.put(finding.rule(), finding);
        } else {
            tell(finding);
        }
    }

    @Override
    public void cleared(
            Rule rule,
            Channel channel,
            long atMicros,
            Figure inletPsi,
            Figure boostedPsi,
            String now) {
        standing.remove(rule);
        held.remove(rule);
        boolean wasTold = told.remove(rule) != null;
        if (wasTold || !EXPLAINED_BY.containsKey(rule)) {
            next.cleared(rule, channel, atMicros, inletPsi, boostedPsi, now);
        }
    }

    /** Tells what was held back and is no longer explained. */
    void tick() {
        for (Rule rule : Rule.values()) {
            Optional.ofNullable(held.get(rule))
                    .filter(f -> !isExplained(rule))
                    .ifPresent(this::tell);
        }
    }

    private void tell(Finding finding) {
        held.remove(finding.rule());
        told.put(finding.rule(), finding.grade());
        next.found(finding);
    }

    private boolean isExplained(Rule rule) {
        return EXPLAINED_BY.getOrDefault(rule, List.of()).stream()
                .anyMatch(cause -> standing.get(cause) == Grade.CRITICAL);
    }

    void save(StateWriter out) {
        for (Rule rule : Rule.values()) {
            out.putInt(standing.containsKey(rule) ? standing.get(rule).ordinal() : -1);
            out.putInt(told.containsKey(rule) ? told.get(rule).ordinal() : -1);
            out.putBoolean(held.containsKey(rule));
            if (held.containsKey(rule)) {
                held.get(rule).save(out);
            }
        }
    }

    void load(StateReader in) {
        for (Rule rule : Rule.values()) {
            put(standing, rule, in.getInt());
            put(told, rule, in.getInt());
            if (in.getBoolean()) {
                held.put(rule, Finding.load(in));
            }
        }
    }

    private static void put(Map<Rule, Grade> grades, Rule rule, int ordinal) {
        if (ordinal >= 0) {
            grades.put(rule, Grade.values()[ordinal]);
        }
    }
}
