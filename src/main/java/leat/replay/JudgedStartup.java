package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Observation;
import leat.diagnose.Testimony;
import leat.measure.Startup;
import leat.rule.Baseline;
import leat.rule.JudgedRun;
import leat.rule.RunVerdict;
import leat.rule.StartupVerdict;
import leat.store.StoredStartup;

/**
 * A startup of the past.
 *
 * @param startup its numbers
 * @param verdict how it was judged
 * @param baseline what was usual for the machine then; empty while it was learned
 * @param run the run that it began, as it was judged last; empty when it was not judged
 * @param seen the start, its run and the stop after it, as far as they say something
 * @param testimony what people did before it and answered until the next one
 */
public record JudgedStartup(
        Startup startup,
        StartupVerdict verdict,
        Optional<Baseline> baseline,
        Optional<JudgedRun> run,
        Observation seen,
        Testimony testimony) {

    private static final List<StartupVerdict.Outcome> GRAVEST =
            List.of(
                    StartupVerdict.Outcome.NOT_RISEN,
                    StartupVerdict.Outcome.NO_BOOST,
                    StartupVerdict.Outcome.VERY_SLOW,
                    StartupVerdict.Outcome.SLOW,
                    StartupVerdict.Outcome.RELAXED,
                    StartupVerdict.Outcome.GOOD,
                    StartupVerdict.Outcome.NOT_JUDGED);

    /** By the verdict on the run, then by that on the rise. */
    static final Comparator<JudgedStartup> GRAVEST_FIRST =
            Comparator.comparing(JudgedStartup::gravity)
                    .reversed()
                    .thenComparingInt(start -> GRAVEST.indexOf(start.verdict().outcome()));

    public JudgedStartup {
        requireNonNull(startup, "startup");
        requireNonNull(verdict, "verdict");
        requireNonNull(baseline, "baseline");
        requireNonNull(run, "run");
        requireNonNull(seen, "seen");
        requireNonNull(testimony, "testimony");
    }

    /** As it was stored. */
    static JudgedStartup of(StoredStartup stored, Optional<Baseline> baseline) {
        return new JudgedStartup(
                stored.startup(),
                stored.verdict(),
                baseline,
                stored.run(),
                new Observation(
                        stored.startup().startedAtMicros(),
                        Optional.of(stored.startup()),
                        stored.run().map(JudgedRun::run),
                        Optional.empty(),
                        List.of()),
                Testimony.NONE);
    }

    /** The same, of this run. */
    JudgedStartup in(JudgedRun judged) {
        return new JudgedStartup(
                startup,
                verdict,
                baseline,
                Optional.of(judged),
                seen.with(judged.run()),
                testimony);
    }

    /** The same, of which this was seen. */
    JudgedStartup seen(Observation observed) {
        return new JudgedStartup(startup, verdict, baseline, run, observed, testimony);
    }

    /** The same, of which people say this. */
    JudgedStartup told(Testimony said) {
        return new JudgedStartup(startup, verdict, baseline, run, seen, said);
    }

    boolean began(JudgedRun judged) {
        return judged.run().startedAtMicros() == startup.startedAtMicros();
    }

    /** How grave the run was, or the start where the run was not judged. */
    RunVerdict.Mark mark() {
        return run.map(judged -> judged.verdict().mark()).orElse(verdict.mark());
    }

    private RunVerdict.Mark gravity() {
        return mark() == RunVerdict.Mark.NOT_JUDGED ? RunVerdict.Mark.GOOD : mark();
    }
}
