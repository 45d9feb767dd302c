package leat.service;

import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Closes many things that may each take a moment at the same time, within a bound. */
final class Closing {

    private static final Logger LOG = LoggerFactory.getLogger(Closing.class);

    private Closing() {}

    static void all(List<? extends AutoCloseable> closeables, long longestMillis) {
        if (closeables.isEmpty()) {
            return;
        }
        ExecutorService closers = Executors.newFixedThreadPool(Math.min(8, closeables.size()));
        for (AutoCloseable closeable : closeables) {
            closers.execute(() -> close(closeable));
        }
        closers.shutdown();
        try {
            if (!closers.awaitTermination(longestMillis, TimeUnit.MILLISECONDS)) {
                LOG.warn("not everything closed within {} ms", longestMillis);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void close(AutoCloseable closeable) {
        try {
            closeable.close();
        } catch (Exception e) {
            LOG.warn("closing {} failed", closeable, e);
        }
    }
}
