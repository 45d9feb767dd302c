package leat.deliver;

import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/**
 * A delivery on a thread of its own that is interrupted while it waits, as a courier's end does.
 */
final class Interrupted {

    private final FutureTask<DeliveryResult> delivery;
    private final Thread thread;
    private volatile boolean kept;

    private Interrupted(Route route) {
        delivery =
                new FutureTask<>(
                        () -> {
                            DeliveryResult result = route.deliver(Changes.message(1));
                            kept = Thread.currentThread().isInterrupted();
                            return result;
                        });
        thread = new Thread(delivery, "interrupted-delivery");
        thread.start();
    }

    static Interrupted whileDelivering(Route route) {
        return new Interrupted(route);
    }

    /** What the delivery ends with, within a second. */
    DeliveryResult interrupt() throws InterruptedException, ExecutionException, TimeoutException {
        thread.interrupt();
        return delivery.get(1, TimeUnit.SECONDS);
    }

    boolean flagWasKept() {
        return kept;
    }
}
