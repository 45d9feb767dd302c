package leat.system;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;

/**
 * Two machines that start and stop by turns, each with every second run too weak: jet-1 at a Modbus
 * device, jet-2 with sensors at a broker. Its times are {@link System#nanoTime}. Thread-safe.
 */
final class WeakPlant implements AutoCloseable {

    static final List<String> MACHINES = List.of("jet-1", "jet-2");

    static final Duration REST = Duration.ofSeconds(4);
    static final Duration RUN = Duration.ofSeconds(10);

    private static final double INLET_PSI = 40;
    private static final double GOOD_PSI = 102;
    private static final double WEAK_PSI = 56;

    /**
     * One run of a machine.
     *
     * @param weak whether its booster gives far too little, 1.4 times the inlet pressure
     */
    record Turn(String machine, boolean weak, long beginNanos, long endNanos) {}

    private final OwnWilledDevice device;
    private final ClockedSensors sensors;
    private final List<Turn> turns = new ArrayList<>();
    private final ScheduledExecutorService pace =
            Executors.newSingleThreadScheduledExecutor(
                    work -> {
                        Thread thread = new Thread(work, "weak-plant");
                        thread.setDaemon(true);
                        return thread;
                    });
    private int cycle;

    WeakPlant(OwnWilledDevice device, ClockedSensors sensors) {
        this.device = device;
        this.sensors = sensors;
        device.rest(INLET_PSI);
        sensors.rest(INLET_PSI);
    }

    /** From now on it starts and stops. */
    void start() {
        long period = REST.plus(RUN).toMillis();
        pace.scheduleAtFixedRate(this::run, REST.toMillis(), period, TimeUnit.MILLISECONDS);
        pace.scheduleAtFixedRate(this::rest, period, period, TimeUnit.MILLISECONDS);
    }

    private synchronized void run() {
        long now = System.nanoTime();
        boolean firstIsWeak = cycle++ % 2 == 0;
        device.show(INLET_PSI, firstIsWeak ? WEAK_PSI : GOOD_PSI);
        sensors.show(INLET_PSI, firstIsWeak ? GOOD_PSI : WEAK_PSI);
        turns.add(new Turn(MACHINES.get(0), firstIsWeak, now, now + RUN.toNanos()));
        turns.add(new Turn(MACHINES.get(1), !firstIsWeak, now, now + RUN.toNanos()));
    }

    private synchronized void rest() {
        device.rest(INLET_PSI);
        sensors.rest(INLET_PSI);
    }

    /** Runs that are over by then. */
    synchronized List<Turn> turnsUntil(long nanos) {
        return turns.stream().filter(turn -> turn.endNanos() < nanos).toList();
    }

    @Override
    public void close() {
        pace.shutdownNow();
    }
}
