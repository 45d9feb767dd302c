package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.measure.Startup;
import leat.rule.JudgedRun;
import leat.rule.StartupVerdict;

/**
 * A startup as it was measured and judged.
 *
 * @param machine name of the machine
 * @param number 1 for the machine's first startup, then counting; startups are kept for good
 * @param seq the input that completed it
 * @param startup its numbers
 * @param verdict how it was judged
 * @param configHash the configuration that it was judged under
 * @param run the run that it began, as it was judged last; empty when it was not judged
 * @param lasting the run was not judged because it still lasts
 */
public record StoredStartup(
        String machine,
        long number,
        long seq,
        Startup startup,
        StartupVerdict verdict,
        String configHash,
        Optional<JudgedRun> run,
        boolean lasting) {

    public StoredStartup {
        requireNonNull(machine, "machine");
        requireNonNull(startup, "startup");
        requireNonNull(verdict, "verdict");
        requireNonNull(configHash, "configHash");
        requireNonNull(run, "run");
    }

    /** What people are shown and type, such as {@code jet-1/17}. */
    public String name() {
        return machine + "/" + number;
    }
}
