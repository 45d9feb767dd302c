package leat.acquire.modbus;

import java.util.concurrent.atomic.AtomicLong;
import leat.acquire.SourceHealth;

/** What a source counts. Thread-safe: the polling thread writes, anyone reads. */
final class PollCounts {

    private final AtomicLong readings = new AtomicLong();
    private final AtomicLong missed = new AtomicLong();
    private final AtomicLong faults = new AtomicLong();
    private volatile boolean connected;
    private volatile String lastFault = "";

    void delivered() {
        readings.incrementAndGet();
    }

    void missed(long polls) {
        missed.addAndGet(polls);
    }

    void answered() {
        connected = true;
    }

    /** The device answered, but with a refusal: the connection works. */
    void refused(String words) {
        connected = true;
        fault(words);
    }

    void failed(String words) {
        connected = false;
        fault(words);
    }

    void fault(String words) {
        faults.incrementAndGet();
        lastFault = words;
    }

    SourceHealth health() {
        return new SourceHealth(connected, readings.get(), missed.get(), faults.get(), lastFault);
    }
}
