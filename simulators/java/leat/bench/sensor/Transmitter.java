package leat.bench.sensor;

import static java.util.Objects.requireNonNull;

import java.util.EnumMap;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Random;
import leat.bench.line.Lag;

/**
 * One transducer at work, with its loop and converter. Thread-confined; the same seed and calls
 * give the same counts.
 */
public final class Transmitter {

    /** What flows where a loop is shorted, as far as its converter sees it; invented. */
    private static final double SHORTED_MA = 23;

    private final Transducer transducer;
    private final Random random;
    private final Lag seen;
    private final Map<SensorFault, Double> faults = new EnumMap<>(SensorFault.class);
    private OptionalInt stuckAt = OptionalInt.empty();
    private OptionalInt last = OptionalInt.empty();

    /**
     * A sound one.
     *
     * @param psi the pressure it has stood at
     */
    public Transmitter(Transducer transducer, long seed, double psi) {
        this.transducer = requireNonNull(transducer, "transducer");
        random = new Random(seed);
        seen = new Lag(psi);
    }

    /** Lets the transducer follow the pressure for a while. */
    public void advance(double psi, double seconds) {
        seen.follow(psi, transducer.lagSeconds(), seconds);
    }

    /**
     * Puts a fault into it, or changes its size.
     *
     * @param size in the unit of the fault; any number where it has none
     */
    public void strike(SensorFault fault, double size) {
        if (fault == SensorFault.STUCK && !faults.containsKey(fault)) {
            stuckAt = last;
        }
        faults.put(fault, size);
    }

    /** Takes a fault out of it; no effect where it is not there. */
    public void repair(SensorFault fault) {
        faults.remove(fault);
    }

    /** Converts once: 0 to the highest count of the converter. */
    public int convert() {
        int counts = counts(transducer.noisePsi() * random.nextGaussian());
        last = OptionalInt.of(counts);
        return counts;
    }

    private int counts(double noise) {
        Loop loop = transducer.loop();
        if (faults.containsKey(SensorFault.BROKEN_LOOP)) {
            return 0;
        }
        if (faults.containsKey(SensorFault.SHORTED_LOOP)) {
            return loop.countsOfCurrent(SHORTED_MA);
        }
        int counts = loop.counts(read() + noise);
        if (!faults.containsKey(SensorFault.STUCK)) {
            return counts;
        }
        if (stuckAt.isEmpty()) {
            stuckAt = OptionalInt.of(counts);
        }
        return stuckAt.getAsInt();
    }

    private double read() {
        double gain = 1 + faults.getOrDefault(SensorFault.SPAN, 0.0) / 100;
        return seen.value() * gain + faults.getOrDefault(SensorFault.OFFSET, 0.0);
    }
}
