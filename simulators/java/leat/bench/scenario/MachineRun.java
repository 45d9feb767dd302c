package leat.bench.scenario;

import java.time.LocalDateTime;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import leat.bench.line.Fault;
import leat.bench.line.FeedLine;
import leat.bench.line.LineState;
import leat.bench.line.LumpedLine;
import leat.bench.sensor.Loops;
import leat.bench.sensor.SensorFault;
import leat.bench.sensor.Tap;
import leat.bench.sensor.Transmitter;

/** One machine on the stage: its line, its transducers, and how far its script is. */
final class MachineRun implements Event.Stage, Defect.Body {

    /** Growth goes in so many steps, but not faster than ten a second. */
    private static final long GROWTH_STEPS = 1_000;

    private static final long SHORTEST_GROWTH_MICROS = 100_000;

    /** How bad it is, and since when. */
    private record Struck(Course size, long sinceMicros) {
        double at(long micros) {
            return size.at(micros - sinceMicros);
        }

        long nextMicros(long micros) {
            boolean done = micros - sinceMicros >= size.over().toNanos() / 1_000;
            long step =
                    Math.max(size.over().toNanos() / 1_000 / GROWTH_STEPS, SHORTEST_GROWTH_MICROS);
            return size.isSteady() || done ? Long.MAX_VALUE : micros + step;
        }
    }

    private final MachineScript script;
    private final FeedLine line;
    private final Map<Tap, Transmitter> transmitters = new EnumMap<>(Tap.class);
    private final Map<Defect, Struck> struck = new LinkedHashMap<>();
    private final Rota rota;
    private final Loops loops;
    private boolean swapped;
    private int next;
    private long nowMicros;
    private long growsMicros = Long.MAX_VALUE;

    MachineRun(MachineScript script, long seed, LocalDateTime zero) {
        this.script = script;
        line = new LumpedLine(script.line(), Chance.mix(seed));
        loops = script.transducers().loops();
        rota = new Rota(script.starts(), Chance.mix(seed + 11), zero);
        for (Tap tap : Tap.values()) {
            long ownSeed = Chance.mix(seed + 1 + tap.ordinal());
            transmitters.put(
                    tap,
                    new Transmitter(script.transducers().at(tap), ownSeed, tap.psi(line.state())));
        }
    }

    String name() {
        return script.machine();
    }

    /** Does what there is to do up to and including a time; a lap has begun at {@code lapBegan}. */
    void actUpTo(long micros, long lapBegan) {
        long event = eventMicros(lapBegan);
        while (Math.min(event, rota.nextMicros()) <= micros) {
            nowMicros = Math.min(event, rota.nextMicros());
            if (event <= rota.nextMicros()) {
                script.timeline().get(next).action().to(this);
                next++;
                event = eventMicros(lapBegan);
            } else {
                rota.take().to(this);
            }
        }
        nowMicros = micros;
        if (micros >= growsMicros) {
            grow();
        }
    }

    private long eventMicros(long lapBegan) {
        return next < script.timeline().size()
                ? lapBegan + script.timeline().get(next).at().toNanos() / 1_000
                : Long.MAX_VALUE;
    }

    private void grow() {
        growsMicros = Long.MAX_VALUE;
        struck.forEach(
                (defect, size) -> {
                    if (!size.size().isSteady()) {
                        defect.strike(this, size.at(nowMicros));
                        growsMicros = Math.min(growsMicros, size.nextMicros(nowMicros));
                    }
                });
    }

    /** Goes back to the head of the script, with a sound machine at rest. */
    void rewind() {
        next = 0;
        line.stop();
        line.cut();
        struck.keySet().forEach(defect -> defect.repair(this));
        struck.clear();
        growsMicros = Long.MAX_VALUE;
    }

    LineState advance(double seconds) {
        line.advance(seconds);
        LineState state = line.state();
        transmitters.forEach((tap, transmitter) -> transmitter.advance(tap.psi(state), seconds));
        return state;
    }

    Sample sample(long micros) {
        int inlet = transmitters.get(Tap.INLET).convert();
        int boosted = transmitters.get(Tap.BOOSTED).convert();
        int filtered = transmitters.get(Tap.FILTERED).convert();
        return new Sample(
                micros,
                script.machine(),
                line.state(),
                swapped ? boosted : inlet,
                swapped ? inlet : boosted,
                filtered,
                loops);
    }

    double missingWaterShare() {
        return line.missingWaterShare();
    }

    /** What is wrong now and how bad, in plain words. */
    List<String> defects() {
        return struck.entrySet().stream()
                .map(entry -> entry.getKey().words(entry.getValue().at(nowMicros)))
                .toList();
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
    public void cut() {
        line.cut();
    }

    @Override
    public void pause() {
        line.pause();
    }

    @Override
    public void strike(Defect defect, Course size) {
        Struck one = new Struck(size, nowMicros);
        struck.put(defect, one);
        defect.strike(this, size.from());
        growsMicros = Math.min(growsMicros, one.nextMicros(nowMicros));
    }

    @Override
    public void repair(Defect defect) {
        struck.remove(defect);
        defect.repair(this);
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
    public void strike(Tap tap, SensorFault fault, double size) {
        transmitters.get(tap).strike(fault, size);
    }

    @Override
    public void repair(Tap tap, SensorFault fault) {
        transmitters.get(tap).repair(fault);
    }

    @Override
    public void swap(boolean crossed) {
        swapped = crossed;
    }
}
