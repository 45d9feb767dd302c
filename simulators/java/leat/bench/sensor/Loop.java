package leat.bench.sensor;

/**
 * A 4-20 mA loop and the converter that reads it. Limits of a healthy signal are those of NAMUR NE
 * 43: 3.8 to 20.5 mA; at 3.6 mA and below, and from 21 mA, the signal means a failure. Immutable.
 *
 * @param rangePsi pressure at 20 mA, 1 to 1000 psi; 4 mA stand for 0
 * @param bits of the converter, 12 or 16; 0 counts stand for 0 mA
 * @param topMilliamps current at the highest count, 20.5 to 25 mA: more than that is not seen
 */
public record Loop(double rangePsi, int bits, double topMilliamps) {

    public static final double ZERO_MA = 4;
    public static final double FULL_MA = 20;

    /** A signal from here on means a failure; NAMUR NE 43. */
    public static final double FAILURE_HIGH_MA = 21;

    /** A signal down from here means a failure; NAMUR NE 43. */
    public static final double FAILURE_LOW_MA = 3.6;

    /** That of the invented boatyard. */
    public static final Loop USUAL = new Loop(200, 12, 20.5);

    private static final double LOWEST_MA = 3.8;
    private static final double HIGHEST_MA = 20.5;

    public Loop {
        if (!(rangePsi >= 1 && rangePsi <= 1000)) {
            throw new IllegalArgumentException("range must be 1 to 1000 psi: " + rangePsi);
        }
        if (bits != 12 && bits != 16) {
            throw new IllegalArgumentException("a converter has 12 or 16 bits: " + bits);
        }
        if (!(topMilliamps >= HIGHEST_MA && topMilliamps <= 25)) {
            throw new IllegalArgumentException("top must be 20.5 to 25 mA: " + topMilliamps);
        }
    }

    /** The highest count. */
    public int fullCounts() {
        return (1 << bits) - 1;
    }

    /** Counts of a sound loop; a pressure beyond its limits saturates. */
    public int counts(double psi) {
        double milliamps = ZERO_MA + psi / rangePsi * (FULL_MA - ZERO_MA);
        long counts = Math.round(milliamps / topMilliamps * fullCounts());
        long lowest = (long) Math.ceil(LOWEST_MA / topMilliamps * fullCounts());
        long highest = (long) Math.floor(HIGHEST_MA / topMilliamps * fullCounts());
        return (int) Math.min(Math.max(counts, lowest), highest);
    }

    /** Counts of any current, as far as the converter sees it. */
    int countsOfCurrent(double milliamps) {
        long counts = Math.round(milliamps / topMilliamps * fullCounts());
        return (int) Math.min(Math.max(counts, 0), fullCounts());
    }

    /** The current that the converter says, mA. */
    public double milliamps(int counts) {
        return counts * topMilliamps / fullCounts();
    }

    /** The pressure that a device computes from its counts; no current gives a negative one. */
    public double psi(int counts) {
        return (milliamps(counts) - ZERO_MA) / (FULL_MA - ZERO_MA) * rangePsi;
    }
}
