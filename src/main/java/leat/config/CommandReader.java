package leat.config;

import java.time.Duration;
import java.util.List;
import java.util.Optional;

/** Reads the route {@code command}. */
final class CommandReader {

    private static final int MOST_WORDS = 50;

    private static final Key<List<String>> RUN =
            Key.required(
                    "run",
                    new ListForm<>(TextForm.LINE, "words", MOST_WORDS),
                    "the program's whole path, then its arguments, as they are: no shell sees them");
    private static final Key<Duration> TIMEOUT =
            Key.withDefault(
                    "timeout",
                    TimeForm.of(Duration.ofSeconds(1), Duration.ofMinutes(1)),
                    Duration.ofSeconds(10),
                    Key.CHOICE,
                    "how long it may run before it is ended and tried again later");

    static final Block BLOCK =
            Block.of(
                    RUN,
                    ScopeReader.AT_LEAST,
                    ScopeReader.MACHINES,
                    ScopeReader.GIVE_UP_AFTER,
                    ScopeReader.QUIET_HOURS,
                    ScopeReader.ESCALATE_AFTER,
                    ScopeReader.REPEAT_EVERY,
                    ScopeReader.AT_MOST,
                    ScopeReader.ALL_IS_WELL,
                    ScopeReader.ADVISORIES,
                    TIMEOUT);

    private final ScopeReader scopes;

    CommandReader(ScopeReader scopes) {
        this.scopes = scopes;
    }

    Optional<RouteSettings> read(String name, Cursor at) {
        Fields fields = Fields.of(at, BLOCK);
        Optional<RouteScope> scope = scopes.read(fields);
        if (scope.isEmpty()) {
            return Optional.empty();
        }
        List<String> run = fields.the(RUN);
        if (!run.get(0).startsWith("/")) {
            fields.at("run")
                    .orElseThrow()
                    .wrong(
                            Cursor.quote(run.get(0)) + " is not the whole path of a program",
                            "a path from the root, such as /usr/local/bin/siren");
        }
        return Optional.of(new RouteSettings.Command(name, scope.get(), run, fields.the(TIMEOUT)));
    }
}
