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

    /**
     * @throws Trouble.Expected when nobody is named
     */
    String name() {
        if (by == null || by.isBlank()) {
            throw new Trouble.Expected(Main.WRONG, "Say who it is: --by NAME");
        }
        return by;
    }

    /** Now, microseconds UTC. */
    static long nowMicros() {
        return ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now());
    }
}
