package leat.interop;

import static org.awaitility.Awaitility.await;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Locale;
import java.util.concurrent.TimeUnit;

/**
 * A Modbus TCP server that is not ours, nor of the library that we use: pymodbus, as a process that
 * ends with its standard input, at the latest with this JVM. It serves unit 1 on 127.0.0.1.
 */
public final class FieldDevice implements AutoCloseable {

    private static final Path SCRIPT = Path.of("src/test/python/field_device.py");
    private static final Duration START = Duration.ofSeconds(30);

    private final Process process;
    private final Writer orders;
    private final int port;

    private FieldDevice(Process process, int port) {
        this.process = process;
        this.orders = process.outputWriter(StandardCharsets.US_ASCII);
        this.port = port;
    }

    /** Finds what the device runs on, or skips the test. */
    public static Path require() {
        return Peer.requirePython("pymodbus");
    }

    /**
     * Starts one and waits until it listens.
     *
     * @param port 0 for any free one
     */
    public static FieldDevice start(int port) throws IOException {
        Process process =
                new ProcessBuilder(require().toString(), SCRIPT.toString(), Integer.toString(port))
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        BufferedReader said = process.inputReader(StandardCharsets.US_ASCII);
        await().atMost(START).until(() -> said.ready() || !process.isAlive());
        String line = said.readLine();
        if (line == null) {
            throw new IOException("the peer did not start: exit " + process.exitValue());
        }
        return new FieldDevice(process, Integer.parseInt(line.trim()));
    }

    public int port() {
        return port;
    }

    /** Shows numbers as float32, high word first, in input registers from an address on. */
    public void showFloats(int address, double... values) throws IOException {
        StringBuilder line = new StringBuilder("input_register " + address);
        for (double value : values) {
            int bits = Float.floatToIntBits((float) value);
            line.append(' ').append(bits >>> 16).append(' ').append(bits & 0xffff);
        }
        order(line.toString());
    }

    /** Shows these words in input registers from an address on. */
    public void showWords(int address, int... words) throws IOException {
        StringBuilder line = new StringBuilder("input_register " + address);
        for (int word : words) {
            line.append(' ').append(word);
        }
        order(line.toString());
    }

    /** Shows a contact as a discrete input. */
    public void showContact(int address, boolean on) throws IOException {
        order(String.format(Locale.ROOT, "discrete_input %d %d", address, on ? 1 : 0));
    }

    private void order(String line) throws IOException {
        orders.write(line + "\n");
        orders.flush();
    }

    /** As a power cut would. */
    public void kill() throws InterruptedException {
        process.destroyForcibly().waitFor();
    }

    @Override
    public void close() throws IOException {
        try {
            if (process.isAlive()) {
                orders.close();
            }
            if (!process.waitFor(5, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
        }
    }
}
