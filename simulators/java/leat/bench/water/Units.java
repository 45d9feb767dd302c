package leat.bench.water;

/** What stands between the SI inside the model and the units of a gauge on the wall. */
public final class Units {

    /**
     * Pascals in a psi, by definition of the pound-force and the inch (NIST SP 811, appendix B).
     */
    public static final double PSI = 6894.757293168361;

    /** Cubic metres a second in a litre a minute. */
    public static final double LITRE_PER_MINUTE = 1e-3 / 60;

    public static final double MILLILITRE = 1e-6;

    /** Standard atmosphere in Pa (ISO 2533), which every gauge pressure here stands on. */
    public static final double ATMOSPHERE = 101_325;

    /** Standard acceleration of free fall, m/s2 (ISO 80000-3). */
    public static final double GRAVITY = 9.80665;

    private Units() {}
}
