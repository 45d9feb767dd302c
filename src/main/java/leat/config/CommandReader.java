package leat.config;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import leat.files.GivenFile;
import leat.files.UnfitFile;

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

    static final Block BLOCK = Block.of(RUN, TIMEOUT).formerly(FormerKeys.OF_ALL_MEANS);

    private final boolean looks;

    /**
     * @param looks whether the program is looked for; what was archived may have had another
     */
    CommandReader(boolean looks) {
        this.looks = looks;
    }

    Optional<RouteSettings> read(String name, Optional<RouteScope> scope, Cursor at) {
        Fields fields = Fields.of(at, BLOCK);
        if (scope.isEmpty() || !fields.isWhole()) {
            return Optional.empty();
        }
        List<String> run = fields.the(RUN);
        check(fields.at("run").orElseThrow(), run.get(0));
        return Optional.of(new RouteSettings.Command(name, scope.get(), run, fields.the(TIMEOUT)));
    }

    private void check(Cursor at, String program) {
        if (!program.startsWith("/")) {
            at.wrong(
                    Cursor.quote(program) + " is not the whole path of a program",
                    "a path from the root, such as /usr/local/bin/siren");
        } else if (looks) {
            unfit(program).ifPresent(found -> at.doubtful(found.what(), found.remedy()));
        }
    }

    private record Unfit(String what, String remedy) {}

    /** It may still come, with a disk or an update: leat watches without it meanwhile. */
    private static Optional<Unfit> unfit(String program) {
        try {
            Path path = Path.of(program);
            new GivenFile(path).requireRegular();
            return Files.isExecutable(path)
                    ? Optional.empty()
                    : Optional.of(
                            new Unfit(
                                    Cursor.quote(program) + " may not be run by this user",
                                    "chmod 755 " + program));
        } catch (UnfitFile e) {
            return Optional.of(
                    new Unfit(
                            Cursor.quote(program) + " is no program: " + e.getMessage(),
                            "the whole path of a program"));
        } catch (IOException | InvalidPathException e) {
            return Optional.of(
                    new Unfit(
                            "there is no program " + Cursor.quote(program),
                            "check its name and folder, and that this user may enter it"));
        }
    }
}
