package leat.report;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.measure.Startup;
import leat.rule.Baseline;
import leat.rule.JudgedRun;
import leat.rule.Limits;
import leat.rule.StartupVerdict;

/**
 * All that a page about one startup shows.
 *
 * @param site name of the site
 * @param machine name of the machine
 * @param startup as it was measured
 * @param verdict as it was judged
 * @param limits what it was judged by
 * @param inlet inlet pressure around the start
 * @param boosted boosted pressure around the start
 * @param alarms what fired in that time
 * @param other a startup laid over it
 * @param baseline what was usual for the machine; empty while it was learned
 * @param typical the start of the baseline whose rise is the median one, where its curve is kept
 * @param run the run that it began; empty when it was not judged
 * @param why why it is as it is; empty where nobody asked
 * @param answering the command that takes what a check showed, but for the answer; empty where
 *     nobody can be answered
 */
public record StartupView(
        String site,
        String machine,
        Startup startup,
        StartupVerdict verdict,
        Limits limits,
        Trace inlet,
        Trace boosted,
        List<AlarmChange> alarms,
        Optional<Overlay> other,
        Optional<Baseline> baseline,
        Optional<Overlay> typical,
        Optional<JudgedRun> run,
        Optional<Diagnosis> why,
        Optional<String> answering) {

    /**
     * Another startup, for comparison.
     *
     * @param label what it is
     * @param startup its numbers
     * @param boosted its boosted pressure, seconds from its own start
     */
    public record Overlay(String label, Startup startup, Trace boosted) {
        public Overlay {
            requireNonNull(label, "label");
            requireNonNull(startup, "startup");
            requireNonNull(boosted, "boosted");
        }
    }

    public StartupView {
        requireNonNull(site, "site");
        requireNonNull(machine, "machine");
        requireNonNull(startup, "startup");
        requireNonNull(verdict, "verdict");
        requireNonNull(limits, "limits");
        requireNonNull(inlet, "inlet");
        requireNonNull(boosted, "boosted");
        alarms = List.copyOf(alarms);
        requireNonNull(other, "other");
        requireNonNull(baseline, "baseline");
        requireNonNull(typical, "typical");
        requireNonNull(run, "run");
        requireNonNull(why, "why");
        requireNonNull(answering, "answering");
    }

    /** The same, with the reason why, of what is stored. */
    public StartupView because(Diagnosis diagnosis, Optional<String> command) {
        return new StartupView(
                site,
                machine,
                startup,
                verdict,
                limits,
                inlet,
                boosted,
                alarms,
                other,
                baseline,
                typical,
                run,
                Optional.of(diagnosis),
                command);
    }
}
