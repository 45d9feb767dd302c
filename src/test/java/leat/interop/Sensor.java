package leat.interop;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;

/** A program of its own that publishes a line ten times a second. Thread-safe. */
public final class Sensor implements AutoCloseable {

    private static final long PERIOD_MILLIS = 100;

    private final Process process;
    private final Writer lines;
    private final ScheduledExecutorService feeding =
            Executors.newSingleThreadScheduledExecutor(
                    work -> {
                        Thread thread = new Thread(work, "sensor");
                        thread.setDaemon(true);
                        return thread;
                    });

    Sensor(Process process, Supplier<String> payload) {
        this.process = process;
        this.lines = process.outputWriter(StandardCharsets.UTF_8);
        feeding.scheduleAtFixedRate(
                () -> say(payload.get()), 0, PERIOD_MILLIS, TimeUnit.MILLISECONDS);
    }

    private void say(String line) {
        try {
            lines.write(line + "\n");
            lines.flush();
        } catch (IOException e) {
            // it is dead, or its broker is: a sensor that nobody hears
            feeding.shutdown();
        }
    }

    /** As a power cut would. */
    public void kill() throws InterruptedException {
        feeding.shutdownNow();
        process.destroyForcibly().waitFor();
    }

    @Override
    public void close() {
        feeding.shutdownNow();
        process.destroyForcibly();
    }
}
