package leat.watch;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import leat.bench.line.Fault;
import leat.bench.line.LineSettings;
import leat.bench.scenario.Event;
import leat.bench.scenario.MachineScript;
import leat.bench.scenario.Scenario;
import leat.bench.sensor.SensorFault;
import leat.bench.sensor.Tap;

/** Writes scenarios of the bench for tests, for one machine. */
final class Plays {

    private final double supplyPsi;
    private final double setPsi;
    private final long seed;
    private final List<Event> timeline = new ArrayList<>();

    private Plays(double supplyPsi, double setPsi, long seed) {
        this.supplyPsi = supplyPsi;
        this.setPsi = setPsi;
        this.seed = seed;
    }

    /** A machine of the usual 42 psi supply and 100 psi level. */
    static Plays usual(long seed) {
        return new Plays(42, 100, seed);
    }

    static Plays of(double supplyPsi, double setPsi, long seed) {
        return new Plays(supplyPsi, setPsi, seed);
    }

    Plays start(double second) {
        return at(second, new Event.Start());
    }

    Plays stop(double second) {
        return at(second, new Event.Stop());
    }

    Plays run(double from, double to) {
        return start(from).stop(to);
    }

    /** The jet is on and off in turns, beginning with on. */
    Plays jet(double from, double onSeconds, double offSeconds, double until) {
        for (double at = from; at < until; at += onSeconds + offSeconds) {
            at(at, new Event.Cut());
            at(at + onSeconds, new Event.Pause());
        }
        return this;
    }

    Plays strike(double second, Fault fault, double severity) {
        return at(second, new Event.Strike(fault, severity));
    }

    Plays repair(double second, Fault fault) {
        return at(second, new Event.Repair(fault));
    }

    Plays breakLoop(double second, Tap tap) {
        return at(second, new Event.Strike(tap, SensorFault.BROKEN_LOOP, 1));
    }

    Plays mendLoop(double second, Tap tap) {
        return at(second, new Event.Repair(tap, SensorFault.BROKEN_LOOP));
    }

    private Plays at(double second, Event.Action action) {
        timeline.add(new Event(Duration.ofMillis(Math.round(second * 1000)), action));
        return this;
    }

    /** The scenario, which lasts so long. */
    Scenario until(double second) {
        return new Scenario(
                "play",
                "written by a test",
                "see the test",
                seed,
                Duration.ofMillis(Math.round(second * 1000)),
                false,
                List.of(new MachineScript("jet-1", new LineSettings(supplyPsi, setPsi), timeline)));
    }

    /** The same as the daemon would get it. */
    BenchFeed feed(double untilSecond) {
        return BenchFeed.of(until(untilSecond));
    }
}
