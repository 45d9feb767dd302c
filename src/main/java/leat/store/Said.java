package leat.store;

import static java.util.Objects.requireNonNull;

import leat.watch.Outcome;

/**
 * One outcome and what caused it.
 *
 * @param machine name of the machine
 * @param seq the input that caused it
 * @param nth 0 for the first outcome of that input, then counting
 * @param outcome what the watch said
 * @param configHash the configuration that it was judged under
 */
public record Said(String machine, long seq, int nth, Outcome outcome, String configHash) {

    public Said {
        requireNonNull(machine, "machine");
        requireNonNull(outcome, "outcome");
        requireNonNull(configHash, "configHash");
    }
}
