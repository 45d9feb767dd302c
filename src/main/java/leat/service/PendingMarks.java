package leat.service;

import java.util.List;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.function.Consumer;
import leat.store.Batch;
import leat.store.Owed;

/** What couriers have told since the last commit. Thread-safe, but for {@link #into}. */
final class PendingMarks implements DeliveryMarks {

    private final EventClock clock;
    private final OwedMessages messages;
    private final Queue<Consumer<Batch>> pending = new ConcurrentLinkedQueue<>();

    /**
     * @param messages owes the notices of what is given up
     */
    PendingMarks(EventClock clock, OwedMessages messages) {
        this.clock = clock;
        this.messages = messages;
    }

    @Override
    public void delivered(long number) {
        long now = clock.nowMicros();
        pending.add(batch -> batch.delivered(number, now));
    }

    @Override
    public void attempted(long number) {
        pending.add(batch -> batch.attempted(number));
    }

    @Override
    public void givenUp(List<Owed> owed, String reason) {
        long now = clock.nowMicros();
        pending.add(
                batch -> {
                    owed.forEach(each -> batch.givenUp(each.number(), now, reason));
                    messages.givenUp(owed.stream().map(Owed::message).toList(), reason, now, batch);
                });
    }

    /** Moves them into the batch. Of the engine thread alone. */
    void into(Batch batch) {
        for (Consumer<Batch> mark = pending.poll(); mark != null; mark = pending.poll()) {
            mark.accept(batch);
        }
    }
}
