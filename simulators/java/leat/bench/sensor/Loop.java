package leat.bench.sensor;

/**
 * The 4-20 mA loop that every transducer of the bench has, read by a 12-bit converter. Limits of a
 * healthy signal are those of NAMUR NE 43: 3.8 to 20.5 mA.
 */
public final class Loop {

    public static final double ZERO_MA = 4;
    public static final double FULL_MA = 20;
    public static final double FULL_PSI = 200;

    /** Highest count, and the current it stands for; 0 counts stand for 0 mA. */
    public static final int FULL_COUNTS = 4095;

    public static final double FULL_COUNTS_MA = 20.5;

    private static final double LOWEST_MA = 3.8;

    /** The first count that is not below the lowest current of a healthy signal. */
    static final int LOWEST_COUNTS = (int) Math.ceil(LOWEST_MA / FULL_COUNTS_MA * FULL_COUNTS);

    private Loop() {}

    /** Counts of a sound loop; a pressure beyond its limits saturates. */
    static int counts(double psi) {
        double current = ZERO_MA + psi / FULL_PSI * (FULL_MA - ZERO_MA);
        long counts = Math.round(current / FULL_COUNTS_MA * FULL_COUNTS);
        return (int) Math.min(Math.max(counts, LOWEST_COUNTS), FULL_COUNTS);
    }

    /** The pressure that a device computes from its counts; a broken loop gives -50 psi. */
    public static double psi(int counts) {
        double current = counts * FULL_COUNTS_MA / FULL_COUNTS;
        return (current - ZERO_MA) / (FULL_MA - ZERO_MA) * FULL_PSI;
    }
}
