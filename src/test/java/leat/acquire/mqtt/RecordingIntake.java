package leat.acquire.mqtt;

import java.util.ArrayList;
import java.util.List;
import leat.acquire.Intake;
import leat.signal.Input;

/** Keeps what it is offered; its clock stands still until a test moves it. */
final class RecordingIntake implements Intake {

    private final List<String> offered = new ArrayList<>();
    private long nowMicros = 1_767_592_831_000_000L;
    private boolean full;

    @Override
    public synchronized boolean offer(String machine, Input input) {
        if (!full) {
            offered.add(machine + " " + input);
        }
        return !full;
    }

    @Override
    public synchronized long nowMicros() {
        return nowMicros;
    }

    synchronized void setFull(boolean isFull) {
        full = isFull;
    }

    synchronized void pass(long micros) {
        nowMicros += micros;
    }

    synchronized List<String> offered() {
        return List.copyOf(offered);
    }
}
