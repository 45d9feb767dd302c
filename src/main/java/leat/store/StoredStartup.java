package leat.store;

import static java.util.Objects.requireNonNull;

import leat.measure.Startup;
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
 */
public record StoredStartup(
        String machine,
        long number,
        long seq,
        Startup startup,
        StartupVerdict verdict,
        String configHash) {

    public StoredStartup {
        requireNonNull(machine, "machine");
        requireNonNull(startup, "startup");
        requireNonNull(verdict, "verdict");
        requireNonNull(configHash, "configHash");
    }

    /** What people are shown and type, such as {@code jet-1/17}. */
    public String name() {
        return machine + "/" + number;
    }
}
