package leat.replay;

import static java.util.Objects.requireNonNull;

import leat.measure.Startup;
import leat.rule.StartupVerdict;

/**
 * A startup of the past.
 *
 * @param startup its numbers
 * @param verdict how it was judged
 */
public record JudgedStartup(Startup startup, StartupVerdict verdict) {

    public JudgedStartup {
        requireNonNull(startup, "startup");
        requireNonNull(verdict, "verdict");
    }
}
