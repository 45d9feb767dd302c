package leat.cli;

import java.util.Optional;
import leat.signal.Order.Entry;
import picocli.CommandLine.Option;

/** The words for what was done to a machine and what was found. */
final class WorkWords {

    @Option(
            names = "--did",
            paramLabel = "WORK",
            converter = Deeds.class,
            completionCandidates = Deeds.class,
            description = "what was done, one of: ${COMPLETION-CANDIDATES}")
    private Entry did;

    @Option(
            names = "--found",
            paramLabel = "CAUSE",
            completionCandidates = Causes.class,
            description = "what turned out to be the matter, one of: ${COMPLETION-CANDIDATES}")
    private String found = "";

    Optional<Entry> did() {
        return Optional.ofNullable(did);
    }

    /** Empty where nobody says. */
    String found() {
        return found;
    }
}
