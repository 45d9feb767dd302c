package leat.day;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import leat.service.SpedUpDaemon;
import leat.signal.Input;

/**
 * Lets the time of a day pass: four seconds of it at a time, each time what the gauges show, and
 * never faster than the engine judges. Thread-confined.
 */
final class Day {

    private static final long STEP_MICROS = 4 * Water.SECOND;
    private static final long READ_EVERY = 2 * Water.SECOND;
    private static final Duration LONGEST_STEP = Duration.ofSeconds(20);
    private static final long LOOK_NANOS = 50_000;

    private final SpedUpDaemon leat;
    private final Map<String, Water> machines = new LinkedHashMap<>();
    private final long endMicros;

    /** It begins now. */
    Day(SpedUpDaemon leat, Map<String, Water> machines) {
        this.leat = leat;
        this.machines.putAll(machines);
        endMicros = Water.endOfDay(leat.nowMicros());
    }

    /** Event time at which it is over, microseconds UTC. */
    long endMicros() {
        return endMicros;
    }

    /**
     * @param event how much of the day passes
     * @param real how long that takes at least
     */
    void pass(Duration event, Duration real) {
        long steps = event.toNanos() / 1_000 / STEP_MICROS;
        long begun = System.nanoTime();
        for (long step = 1; step <= steps; step++) {
            step();
            long due = begun + real.toNanos() * step / steps;
            LockSupport.parkNanos(due - System.nanoTime());
        }
    }

    /** The readings come before their ticks; the last one wakes the engine. */
    private void step() {
        long now = leat.nowMicros() + STEP_MICROS;
        List<Shown> shown = new ArrayList<>();
        for (long at = now - STEP_MICROS + READ_EVERY; at <= now; at += READ_EVERY) {
            for (Map.Entry<String, Water> machine : machines.entrySet()) {
                for (Input input : machine.getValue().at(at)) {
                    shown.add(new Shown(machine.getKey(), input));
                }
            }
        }
        Shown last = shown.remove(shown.size() - 1);
        shown.forEach(each -> leat.offer(each.machine(), each.input()));
        leat.pass(STEP_MICROS);
        leat.offer(last.machine(), last.input());
        awaitJudgement(now);
    }

    private record Shown(String machine, Input input) {}

    private void awaitJudgement(long micros) {
        long latest = System.nanoTime() + LONGEST_STEP.toNanos();
        for (String machine : machines.keySet()) {
            while (leat.judgedMicros(machine) < micros) {
                assertThat(System.nanoTime()).as("the engine stands still").isLessThan(latest);
                LockSupport.parkNanos(LOOK_NANOS);
            }
        }
    }
}
