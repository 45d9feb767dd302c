package leat.system;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import leat.interop.Peer;

/**
 * The computer's clock as one process of leat sees it, moved by the library of Debian's {@code
 * libfaketime}, which reads the file again at every look at the clock. As on a real machine whose
 * clock is set, the monotonic clock runs on.
 */
final class FakeTime {

    private static final String LIBRARY = "faketime/libfaketimeMT.so.1";

    private final Path library;
    private final Path file;
    private volatile Duration ahead = Duration.ZERO;

    private FakeTime(Path library, Path file) {
        this.library = library;
        this.file = file;
    }

    /** A clock that is right; skips the test where the library is missing. */
    static FakeTime require(Path folder) throws IOException {
        return right(Peer.requireLibrary(LIBRARY), folder);
    }

    /** A clock that is right; empty where the library is missing. */
    static Optional<FakeTime> find(Path folder) throws IOException {
        Optional<Path> library = Peer.findLibrary(LIBRARY);
        return library.isEmpty() ? Optional.empty() : Optional.of(right(library.get(), folder));
    }

    private static FakeTime right(Path library, Path folder) throws IOException {
        FakeTime time = new FakeTime(library, folder.resolve("clock"));
        time.set(Duration.ZERO);
        return time;
    }

    /** From now on it is so far ahead of the real one, or behind where that is negative. */
    void set(Duration newAhead) throws IOException {
        Path next = file.resolveSibling("clock.next");
        Files.writeString(next, String.format("%+d%n", newAhead.toSeconds()), US_ASCII);
        Files.move(next, file, StandardCopyOption.ATOMIC_MOVE);
        ahead = newAhead;
    }

    /**
     * From now on it is a second to 400 days off, either way, or right; small steps are as many.
     */
    void setAnyhow(Random random) throws IOException {
        double seconds = Math.pow(10, random.nextDouble() * Math.log10(400 * 86_400.0));
        set(Duration.ofSeconds((random.nextInt(3) - 1) * Math.round(seconds)));
    }

    /** How far it is ahead of the real one. */
    Duration ahead() {
        return ahead;
    }

    /** From now on it runs on from this time. */
    void setTo(Instant time) throws IOException {
        set(Duration.between(Instant.now(), time));
    }

    /**
     * What a process needs in its environment to see this clock. Without the last two a JVM's timed
     * waits, which go by the monotonic clock, would end at once or never.
     */
    Map<String, String> environment() {
        return Map.of(
                "LD_PRELOAD", library.toString(),
                "FAKETIME_TIMESTAMP_FILE", file.toString(),
                "FAKETIME_NO_CACHE", "1",
                "NO_FAKE_STAT", "1",
                "FAKETIME_DONT_FAKE_MONOTONIC", "1",
                "FAKETIME_FORCE_MONOTONIC_FIX", "0");
    }
}
