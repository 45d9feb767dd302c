package leat.bench.scenario;

import java.util.EnumMap;
import java.util.Map;
import leat.bench.line.Fault;
import leat.bench.line.FeedLine;
import leat.bench.line.FirstOrderLine;
import leat.bench.line.LineState;
import leat.bench.sensor.Tap;
import leat.bench.sensor.Transmitter;

/** One machine on the stage: its line, its transducers, and how far its script is. */
final class MachineRun implements Event.Stage {

    private final MachineScript script;
    private final FeedLine line;
    private final Map<Tap, Transmitter> transmitters = new EnumMap<>(Tap.class);
    private int next;

    MachineRun(MachineScript script, long seed) {
        this.script = script;
        line = new FirstOrderLine(script.line(), mix(seed));
        for (Tap tap : Tap.values()) {
            long ownSeed = mix(seed + 1 + tap.ordinal());
            transmitters.put(tap, new Transmitter(ownSeed, tap.psi(line.state())));
        }
    }

    /** Spreads neighbouring seeds, whose first draws would be alike. */
    private static long mix(long seed) {
        long mixed = (seed ^ (seed >>> 30)) * 0xBF58476D1CE4E5B9L;
        mixed = (mixed ^ (mixed >>> 27)) * 0x94D049BB133111EBL;
        return mixed ^ (mixed >>> 31);
    }

    /** Does what the script has for the time up to and including {@code lapMicros}. */
    void actUpTo(long lapMicros) {
        while (next < script.timeline().size()
                && script.timeline().get(next).at().toNanos() <= lapMicros * 1000) {
            script.timeline().get(next).action().to(this);
            next++;
        }
    }

    /** Goes back to the head of the script, with a sound machine at rest. */
    void rewind() {
        next = 0;
        line.stop();
        for (Fault fault : Fault.values()) {
            line.repair(fault);
        }
        transmitters.values().forEach(transmitter -> transmitter.setBroken(false));
    }

    void advance(double seconds) {
        line.advance(seconds);
        LineState state = line.state();
        transmitters.forEach((tap, transmitter) -> transmitter.advance(tap.psi(state), seconds));
    }

    Sample sample(long micros) {
        return new Sample(
                micros,
                script.machine(),
                line.state(),
                transmitters.get(Tap.INLET).convert(),
                transmitters.get(Tap.BOOSTED).convert(),
                transmitters.get(Tap.FILTERED).convert());
    }

    @Override
    public void start() {
        line.start();
    }

    @Override
    public void stop() {
        line.stop();
    }

    @Override
    public void strike(Fault fault, double severity) {
        line.strike(fault, severity);
    }

    @Override
    public void repair(Fault fault) {
        line.repair(fault);
    }

    @Override
    public void breakLoop(Tap tap) {
        transmitters.get(tap).setBroken(true);
    }

    @Override
    public void mendLoop(Tap tap) {
        transmitters.get(tap).setBroken(false);
    }
}
