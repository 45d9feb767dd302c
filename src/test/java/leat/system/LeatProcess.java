package leat.system;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;

/**
 * leat as a process of its own, as it runs in the field: its own JVM, its own working folder, its
 * own log settings. Everything it says goes to a file.
 */
final class LeatProcess implements AutoCloseable {

    private static final Duration START = Duration.ofSeconds(40);
    private static final Duration LONGEST_COMMAND = Duration.ofSeconds(40);

    private final Process process;
    private final Path log;

    private LeatProcess(Process process, Path log) {
        this.process = process;
        this.log = log;
    }

    /** Starts {@code leat run site.yaml} in a folder; returns at once. */
    static LeatProcess run(Path folder) throws IOException {
        return run(folder, Map.of());
    }

    /** Likewise with more in its environment. */
    static LeatProcess run(Path folder, Map<String, String> environment) throws IOException {
        return start(folder, environment, "run", "site.yaml");
    }

    /** Likewise in a network of its own, in which there is nobody else. */
    static LeatProcess inOwnNetwork(Path folder) throws IOException {
        return start(folder, List.of("unshare", "--net"), Map.of(), "run", "site.yaml");
    }

    /** Likewise, and waits until it watches. */
    static LeatProcess watching(Path folder) throws IOException {
        return watching(folder, Map.of());
    }

    /** Likewise with more in its environment. */
    static LeatProcess watching(Path folder, Map<String, String> environment) throws IOException {
        LeatProcess leat = run(folder, environment);
        await().atMost(START)
                .pollInterval(Duration.ofMillis(20))
                .until(() -> leat.isWatching() || !leat.process.isAlive());
        assertThat(leat.isWatching()).as(leat.log()).isTrue();
        return leat;
    }

    /** Runs one command to its end. */
    static LeatProcess done(Path folder, String... words) throws Exception {
        LeatProcess leat = start(folder, words);
        leat.awaitEnd(LONGEST_COMMAND);
        return leat;
    }

    /** Starts any command; returns at once. */
    static LeatProcess start(Path folder, String... words) throws IOException {
        return start(folder, Map.of(), words);
    }

    private static LeatProcess start(Path folder, Map<String, String> environment, String... words)
            throws IOException {
        return start(folder, List.of(), environment, words);
    }

    /**
     * @param by programs that become leat in the end, as {@code nice} does
     */
    private static LeatProcess start(
            Path folder, List<String> by, Map<String, String> environment, String... words)
            throws IOException {
        Path log = Files.createTempFile(folder, words[0] + "-", ".log");
        List<String> command = new ArrayList<>(by);
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(List.of("-Xmx96m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"));
        command.addAll(List.of("-cp", programOnly(), "leat.cli.Main"));
        command.addAll(List.of(words));
        ProcessBuilder builder =
                new ProcessBuilder(command)
                        .directory(folder.toFile())
                        .redirectErrorStream(true)
                        .redirectOutput(log.toFile());
        builder.environment().putAll(environment);
        return new LeatProcess(builder.start(), log);
    }

    /** The class path of this JVM without the tests: their log settings are not the program's. */
    static String programOnly() {
        String all =
                System.getProperty(
                        "surefire.test.class.path", System.getProperty("java.class.path"));
        return Arrays.stream(all.split(File.pathSeparator))
                .filter(entry -> !entry.contains("test-classes"))
                .map(entry -> Path.of(entry).toAbsolutePath().toString())
                .collect(Collectors.joining(File.pathSeparator));
    }

    boolean isWatching() {
        return log().contains(" watching [");
    }

    boolean isAlive() {
        return process.isAlive();
    }

    long pid() {
        return process.pid();
    }

    /** Everything that it has said. */
    String log() {
        try {
            return Files.readString(log);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Lets it run for so long; fails when it ends by itself. */
    void letRun(Duration time) throws InterruptedException {
        boolean ended = process.waitFor(time.toNanos(), TimeUnit.NANOSECONDS);
        assertThat(ended).as("it ended by itself:\n%s", log()).isFalse();
    }

    /** kill -9. */
    void kill() throws InterruptedException {
        process.destroyForcibly();
        assertThat(process.waitFor(20, TimeUnit.SECONDS)).isTrue();
    }

    /** SIGTERM; returns how long it took to end. */
    Duration terminate() throws InterruptedException {
        long begun = System.nanoTime();
        process.destroy();
        awaitEnd(Duration.ofSeconds(30));
        return Duration.ofNanos(System.nanoTime() - begun);
    }

    private void awaitEnd(Duration longest) throws InterruptedException {
        boolean ended = process.waitFor(longest.toMillis(), TimeUnit.MILLISECONDS);
        if (!ended) {
            process.destroyForcibly();
        }
        assertThat(ended).as("it does not end:\n%s", log()).isTrue();
    }

    /** Once it has ended. */
    int exitCode() {
        return process.exitValue();
    }

    @Override
    public void close() {
        process.destroyForcibly();
    }
}
