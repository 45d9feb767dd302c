package leat.service;

import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.LongAdder;
import java.util.function.BiConsumer;
import leat.acquire.Intake;
import leat.signal.Input;

/**
 * Where the sources put what they read until the engine takes it: bounded, and what does not fit is
 * lost and counted, before any watch has seen it. It comes in with leat's own time and goes out
 * with event time in whole milliseconds (decision 0056), so that no step of the computer's clock in
 * between can mislead. Thread-safe.
 */
final class Inbox implements Intake {

    /** Half a minute of 64 machines with two channels at 20 Hz. */
    private static final int CAPACITY = 80_000;

    private static final long STEP_MICROS = 1_000;

    private record Item(String machine, Input input) {}

    private final BlockingQueue<Item> queue = new ArrayBlockingQueue<>(CAPACITY);
    private final LongAdder lost = new LongAdder();
    private final EventClock clock;

    Inbox(EventClock clock) {
        this.clock = clock;
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
        return clock.ownMicros();
    }

    /** Hands over what is there, at most so many; returns how many. */
    int drain(int atMost, BiConsumer<String, Input> receiver) {
        int count = 0;
        Item item;
        while (count < atMost && (item = queue.poll()) != null) {
            hand(item, receiver);
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
        hand(item, receiver);
        return true;
    }

    private void hand(Item item, BiConsumer<String, Input> receiver) {
        Input input = item.input();
        long micros = clock.eventMicros(input.atMicros());
        receiver.accept(item.machine(), input.at(micros - Math.floorMod(micros, STEP_MICROS)));
    }

    long lost() {
        return lost.sum();
    }
}
