package leat.interop;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.awaitility.Awaitility;

/**
 * Debian's broker as a process of its own on a free port of 127.0.0.1, without persistence: a
 * restart forgets subscriptions and retained messages. Its clients publish and listen for a test.
 */
public final class Mosquitto implements AutoCloseable {

    private final Path folder;
    private final List<String> moreSettings;
    private final int port;
    private final Map<Heard, Process> listeners = new HashMap<>();
    private final List<Sensor> sensors = new ArrayList<>();
    private Optional<Process> broker = Optional.empty();

    /** Chooses a port; the broker is not started yet. Skips the test where it is missing. */
    public Mosquitto(Path folder, String... moreSettings) {
        Peer.require("mosquitto");
        Peer.require("mosquitto_pub");
        Peer.require("mosquitto_sub");
        this.folder = folder;
        this.moreSettings = List.of(moreSettings);
        this.port = FreePort.find();
    }

    public int port() {
        return port;
    }

    public String url() {
        return "tcp://127.0.0.1:" + port;
    }

    public void start() throws IOException {
        start(moreSettings);
    }

    /** With other settings than those that it was made with; for this start alone. */
    public void startWith(String... otherSettings) throws IOException {
        start(List.of(otherSettings));
    }

    private void start(List<String> more) throws IOException {
        List<String> settings = new ArrayList<>();
        settings.add("listener " + port + " 127.0.0.1");
        settings.add("persistence false");
        settings.add("user root");
        settings.addAll(more.isEmpty() ? List.of("allow_anonymous true") : more);
        Path file = Files.write(folder.resolve("mosquitto-" + port + ".conf"), settings);
        broker = Optional.of(run("mosquitto", "-c", file.toString()));
        Awaitility.await().atMost(Duration.ofSeconds(10)).until(this::answers);
    }

    /** As a power cut would: the broker has no time to say anything. */
    public void kill() throws InterruptedException {
        Process process = broker.orElseThrow();
        process.destroyForcibly();
        process.waitFor(10, TimeUnit.SECONDS);
        broker = Optional.empty();
    }

    /** Publishes with mosquitto_pub and waits until the broker has it. */
    public void publish(String topic, String payload, String... options)
            throws IOException, InterruptedException {
        List<String> command = client("mosquitto_pub", options);
        command.addAll(List.of("-q", "1", "-t", topic, "-m", payload));
        finish(command);
    }

    /** Publishes the bytes of a file. */
    public void publishFile(String topic, Path file, String... options)
            throws IOException, InterruptedException {
        List<String> command = client("mosquitto_pub", options);
        command.addAll(List.of("-q", "1", "-t", topic, "-f", file.toString()));
        finish(command);
    }

    /** The same message again and again, as fast as it goes; the caller ends it. */
    public Process flood(String topic, Path file, int times, String... options) throws IOException {
        List<String> command = client("mosquitto_pub", options);
        command.addAll(List.of("-q", "1", "-t", topic, "-f", file.toString()));
        command.addAll(List.of("--repeat", Integer.toString(times), "--repeat-delay", "0"));
        return run(command.toArray(String[]::new));
    }

    private static void finish(List<String> command) throws IOException, InterruptedException {
        Process process = run(command.toArray(String[]::new));
        if (!process.waitFor(10, TimeUnit.SECONDS) || process.exitValue() != 0) {
            process.destroyForcibly();
            throw new IOException("mosquitto_pub failed");
        }
    }

    /** Listens with mosquitto_sub; what it hears goes to a file, one message a line. */
    public Heard listen(String filter, String... options) throws IOException {
        List<String> command = client("mosquitto_sub", options);
        command.addAll(List.of("-q", "1", "-t", filter, "-F", "%r %t %p"));
        Path file = Files.createTempFile(folder, "heard", ".txt");
        Process process =
                new ProcessBuilder(command)
                        .redirectErrorStream(true)
                        .redirectOutput(file.toFile())
                        .start();
        Heard heard = new Heard(file);
        listeners.put(heard, process);
        return heard;
    }

    /**
     * Listens with mosquitto_sub and hands each message over as it comes, on a thread of its own.
     *
     * @param line takes the retained flag (0 or 1), topic and payload
     * @return the client, which the caller ends
     */
    public Process listen(Consumer<String> line, List<String> filters, String... options)
            throws IOException {
        List<String> command = client("mosquitto_sub", options);
        command.addAll(List.of("-q", "1", "-F", "%r %t %p"));
        filters.forEach(filter -> command.addAll(List.of("-t", filter)));
        Process process =
                new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
        Thread hearing = new Thread(() -> process.inputReader(UTF_8).lines().forEach(line), "sub");
        hearing.setDaemon(true);
        hearing.start();
        return process;
    }

    /** Ends a listener as a power cut would; what it heard stays. */
    public void killListener(Heard heard) throws InterruptedException {
        listeners.remove(heard).destroyForcibly().waitFor();
    }

    /**
     * A sensor: one mosquitto_pub that publishes ten times a second for as long as it lives.
     *
     * @param payload one line, asked for each time
     */
    public Sensor startSensor(String topic, Supplier<String> payload, String... options)
            throws IOException {
        List<String> command = client("mosquitto_pub", options);
        command.addAll(List.of("-q", "1", "-t", topic, "-l"));
        Process process =
                new ProcessBuilder(command)
                        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                        .redirectError(ProcessBuilder.Redirect.DISCARD)
                        .start();
        Sensor sensor = new Sensor(process, payload);
        sensors.add(sensor);
        return sensor;
    }

    /**
     * What a listener heard so far.
     *
     * @param file lines of retained flag (0 or 1), topic and payload
     */
    public record Heard(Path file) {
        public List<String> lines() {
            try {
                return Files.readAllLines(file);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        public List<String> lines(String topic) {
            return lines().stream()
                    .filter(line -> line.substring(2).startsWith(topic + " "))
                    .toList();
        }
    }

    @Override
    public void close() {
        listeners.values().forEach(Process::destroyForcibly);
        sensors.forEach(Sensor::close);
        broker.ifPresent(Process::destroyForcibly);
    }

    private List<String> client(String program, String... options) {
        List<String> command = new ArrayList<>();
        command.add(Peer.require(program).toString());
        command.addAll(List.of("-h", "127.0.0.1", "-p", Integer.toString(port)));
        command.addAll(List.of(options));
        return command;
    }

    private static Process run(String... command) throws IOException {
        List<String> words = new ArrayList<>(List.of(command));
        if (!words.get(0).contains("/")) {
            words.set(0, Peer.require(words.get(0)).toString());
        }
        return new ProcessBuilder(words)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
    }

    private boolean answers() {
        try (Socket socket = new Socket()) {
            socket.connect(new InetSocketAddress("127.0.0.1", port), 200);
            return true;
        } catch (IOException e) {
            return false;
        }
    }
}
