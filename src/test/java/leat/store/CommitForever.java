package leat.store;

import java.nio.file.Path;
import java.util.Optional;
import leat.rule.Grade;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.signal.Tick;

/**
 * A program to be killed: opens the store named by its argument and commits batch after batch; in
 * between it seals and prunes, as the engine does. Prints the number of each batch once its commit
 * has returned.
 */
final class CommitForever {

    /** Of a batch: readings, each with a tick after it. */
    static final int INPUTS = 400;

    static final int TICKS = INPUTS / 2;

    /** Seconds that are kept: with the rows that stay, a few segments. */
    static final long KEPT = 6_000;

    private CommitForever() {}

    public static void main(String[] args) {
        Path file = Path.of(args[0]);
        try (Store store = Store.open(file);
                StoreReader reader = StoreReader.open(file)) {
            store.startRun("0.1.0", "hash", "", 0);
            long number = reader.lastSeq("jet-1") / INPUTS;
            while (true) {
                number++;
                store.commit(batch(number));
                System.out.println(number);
                store.seal();
                store.prune(TICKS, KEPT);
            }
        }
    }

    /** Batch {@code number} holds the inputs of its own, an outcome, a message and a snapshot. */
    static Batch batch(long number) {
        Batch batch = new Batch();
        long last = number * INPUTS;
        for (long seq = last - INPUTS + 1; seq <= last; seq += 2) {
            long at = seq / 2 * Tick.PERIOD_MICROS;
            batch.fed("jet-1", seq, Reading.good(Channel.BOOSTED, at, seq));
            batch.fed("jet-1", seq + 1, new Tick(at + Tick.PERIOD_MICROS));
        }
        batch.said("jet-1", last, new RandomStory(number).startup(), "hash");
        batch.owes(
                new Message(
                        "m" + number,
                        "log",
                        "jet-1",
                        "",
                        Grade.WARNING,
                        last,
                        "",
                        Message.Purpose.NEWS,
                        "",
                        "",
                        "",
                        "",
                        Optional.empty()));
        batch.snapshot(new Snapshot("jet-1", last, last, 1, new byte[2_000]));
        return batch;
    }
}
