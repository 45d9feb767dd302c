package leat.service;

import java.time.Duration;
import leat.store.Store;
import leat.store.StoreException;
import leat.work.Trouble;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps the store small: turns rows into segments, deletes samples that are old enough, both a
 * slice at a time, and empties the write-ahead log each hour. Confined to the engine thread.
 */
final class Housekeeping {

    private static final Logger LOG = LoggerFactory.getLogger(Housekeeping.class);
    private static final Duration SAY_AGAIN = Duration.ofMinutes(10);
    private static final int PRUNE_EVERY_SECONDS = 10;

    private static final long KEPT_MESSAGES = 50_000;

    private static final int CHECKPOINT_EVERY_SECONDS = 3_600;
    private static final long LARGE_WAL_BYTES = 256L << 20;

    /** A commit waits no longer than that for rows to be sealed, and for what is begun. */
    private static final long SEALING_NANOS = 15_000_000;

    private final Store store;
    private final long keptSeconds;
    private final Trouble trouble = new Trouble(SAY_AGAIN, System::nanoTime);
    private long seconds;

    Housekeeping(Store store, Duration keepSamples) {
        this.store = store;
        keptSeconds = keepSamples.toSeconds();
    }

    /** A second's commit has gone through. */
    void second() {
        seconds++;
        try {
            if (seconds % PRUNE_EVERY_SECONDS == 0) {
                store.prune(PRUNE_EVERY_SECONDS, keptSeconds);
                store.pruneMessages(KEPT_MESSAGES);
                trouble.over()
                        .ifPresent(
                                past ->
                                        LOG.info(
                                                "store: old samples go again, after {}",
                                                past.seconds()));
            }
            if (seconds % CHECKPOINT_EVERY_SECONDS == 0) {
                checkpoint();
            }
            seal();
        } catch (StoreException e) {
            if (trouble.isNews(e.getMessage())) {
                LOG.warn("store: old samples stay for now: {}", e.getMessage());
            }
        }
    }

    private void seal() {
        long began = System.nanoTime();
        while (store.seal() && System.nanoTime() - began < SEALING_NANOS) {
            // as many slices as there is time for
        }
    }

    private void checkpoint() {
        if (!store.checkpoint() && store.walBytes() > LARGE_WAL_BYTES) {
            LOG.warn(
                    "store: the write-ahead log has grown to {} MB; close programs that have the file open",
                    store.walBytes() >> 20);
        }
    }
}
