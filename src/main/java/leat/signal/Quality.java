package leat.signal;

/**
 * How far a reading can be trusted. A BAD reading carries no number at all.
 *
 * <p>The loop-current bands are those of NAMUR NE 43: measurement 3.8 to 20.5 mA, failure at or
 * below 3.6 and at or above 21.0 mA, neither in between.
 */
public enum Quality {
    GOOD(0, Trust.GOOD),
    /** 3.6 to 3.8 mA: below the measuring band, not yet a failure. */
    LOOP_BELOW_BAND(1, Trust.UNCERTAIN),
    /** 20.5 to 21.0 mA: above the measuring band, not yet a failure. */
    LOOP_ABOVE_BAND(2, Trust.UNCERTAIN),
    /** In a recording written on change: the last value, repeated until the next. */
    HELD(3, Trust.UNCERTAIN),
    /**
     * 20.45 to 20.5 mA, where transmitters and converters end: a short peak, or no pressure at all.
     */
    AT_TOP(4, Trust.UNCERTAIN),
    /** At or below 3.6 mA: broken wire, unplugged connector or no loop supply. */
    LOOP_BROKEN(10, Trust.BAD),
    /** At or above 21.0 mA: short circuit or failed transmitter. */
    LOOP_SHORTED(11, Trust.BAD),
    /** A number that no gauge pressure in this line can have. */
    OUT_OF_RANGE(12, Trust.BAD),
    /** Not a number, or so tiny that only a wrong word order explains it. */
    UNDECODABLE(13, Trust.BAD),
    /** The device answered that it cannot give this value. */
    DEVICE_REFUSED(14, Trust.BAD);

    /** Whether a pressure may be judged on this reading. */
    public enum Trust {
        GOOD,
        UNCERTAIN,
        BAD
    }

    private static final Quality[] ALL = values();

    private final int code;
    private final Trust trust;

    Quality(int code, Trust trust) {
        this.code = code;
        this.trust = trust;
    }

    /** The number under which the store keeps this quality; never reused for another. */
    public int code() {
        return code;
    }

    public Trust trust() {
        return trust;
    }

    /** True when the reading carries a number that may be judged. */
    public boolean isUsable() {
        return trust != Trust.BAD;
    }

    /** Its name among the phrases, such as {@code loop-broken}. */
    public String key() {
        return Keyword.of(this);
    }

    /**
     * @throws IllegalArgumentException for a code that no quality has
     */
    public static Quality byCode(int code) {
        for (Quality quality : ALL) {
            if (quality.code == code) {
                return quality;
            }
        }
        throw new IllegalArgumentException("no quality has the code " + code);
    }
}
