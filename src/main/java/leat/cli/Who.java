package leat.cli;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import picocli.CommandLine.Option;

/** The person that an instruction is from. */
final class Who {

    @Option(
            names = "--by",
            paramLabel = "NAME",
            description = "who says so (default: the user logged in)")
    private String by = System.getProperty("user.name");

    /** Blank where nobody is named. */
    String name() {
        return by == null ? "" : by;
    }

    /** Now, microseconds UTC. */
    static long nowMicros() {
        return ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now());
    }
}
