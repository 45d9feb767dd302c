package leat.cli;

import java.time.Instant;
import java.time.ZoneId;
import java.util.Optional;
import leat.replay.StoredSpan;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import picocli.CommandLine.Option;

/** Which stretch of the store a command is about. */
final class SpanChoice {

    @Option(names = "--machine", paramLabel = "NAME", description = "the machine, such as jet-1")
    private String machine;

    @Option(
            names = "--since",
            paramLabel = "TIME",
            description = "from then on: " + TimeWords.ALLOWED)
    private String since;

    @Option(names = "--until", paramLabel = "TIME", description = "up to then (default: now)")
    private String until;

    Optional<String> machine() {
        return Optional.ofNullable(machine);
    }

    /** Whether any word about a span was typed. */
    boolean isGiven() {
        return since != null || until != null;
    }

    /** The distant past where no --since was typed. */
    long sinceMicros(ZoneId zone) {
        return since == null ? Long.MIN_VALUE : words(zone).micros("--since", since);
    }

    /** The distant future where no --until was typed. */
    long untilMicros(ZoneId zone) {
        return until == null ? Long.MAX_VALUE : words(zone).micros("--until", until);
    }

    private static TimeWords words(ZoneId zone) {
        return new TimeWords(zone, Instant.now());
    }

    StoredSpan of(StoreReader reader, StoredStartup startup) {
        return StoredSpan.of(reader, startup)
                .orElseThrow(
                        () ->
                                new CommandFailure.Expected(
                                        ExitCode.FAILED, "cli.readings-gone", startup.name()));
    }

    StoredSpan between(StoreReader reader, ZoneId zone) {
        if (machine == null || since == null) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.machine-and-since");
        }
        if (!reader.machines().contains(machine)) {
            throw new CommandFailure.Expected(
                    ExitCode.WRONG, "cli.no-machine", machine, reader.machines().toString());
        }
        long from = sinceMicros(zone);
        long to = untilMicros(zone);
        if (from >= to) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.since-until");
        }
        return StoredSpan.between(reader, machine, from, to)
                .orElseThrow(
                        () ->
                                new CommandFailure.Expected(
                                        ExitCode.WRONG, "cli.nothing-stored", machine));
    }
}
