package leat.service;

import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.LongAdder;
import java.util.function.BiConsumer;
import java.util.function.LongSupplier;
import leat.acquire.Intake;
import leat.signal.Input;

/**
 * Where the sources put what they read until the engine takes it: bounded, and what does not fit is
 * lost and counted, before any watch has seen it. Thread-safe.
 */
final class Inbox implements Intake {

    /** Half a minute of 64 machines with two channels at 20 Hz. */
    private static final int CAPACITY = 80_000;

    private record Item(String machine, Input input) {}

    private final BlockingQueue<Item> queue = new ArrayBlockingQueue<>(CAPACITY);
    private final LongAdder lost = new LongAdder();
    private final LongSupplier nowMicros;

    Inbox(LongSupplier nowMicros) {
        this.nowMicros = nowMicros;
    }

    @Override
    public boolean offer(String machine, Input input) {
        boolean taken = queue.offer(new Item(machine, input));
        if (!taken) {
            lost.increment();
        }
        return taken;
    }

    @Override
    public long nowMicros() {
        return nowMicros.getAsLong();
    }

    /** Hands over what is there, at most so many; returns how many. */
    int drain(int atMost, BiConsumer<String, Input> receiver) {
        int count = 0;
        Item item;
        while (count < atMost && (item = queue.poll()) != null) {
            receiver.accept(item.machine(), item.input());
            count++;
        }
        return count;
    }

    /** Waits for something to come, hands it over; false when nothing came in time. */
    boolean await(long nanos, BiConsumer<String, Input> receiver) throws InterruptedException {
        Item item = queue.poll(Math.max(0, nanos), TimeUnit.NANOSECONDS);
        if (item == null) {
            return false;
        }
        receiver.accept(item.machine(), item.input());
        return true;
    }

    long lost() {
        return lost.sum();
    }
}
