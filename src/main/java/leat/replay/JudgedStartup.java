package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.measure.Startup;
import leat.rule.Baseline;
import leat.rule.StartupVerdict;

/**
 * A startup of the past.
 *
 * @param startup its numbers
 * @param verdict how it was judged
 * @param baseline what was usual for the machine then; empty while it was learned
 */
public record JudgedStartup(Startup startup, StartupVerdict verdict, Optional<Baseline> baseline) {

    public JudgedStartup {
        requireNonNull(startup, "startup");
        requireNonNull(verdict, "verdict");
        requireNonNull(baseline, "baseline");
    }
}
