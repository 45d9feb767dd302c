package leat.rule;

/**
 * What tells that a channel has fallen silent with what it hangs on, and not by itself: a device, a
 * broker or a switch that is away silences several at once. Own choice, no published source.
 */
public final class Silence {

    /**
     * So long after the first the others may be found silent: what hangs on one switch is noticed
     * by each connection within its own time-out.
     */
    public static final long TOGETHER_MICROS = 5_000_000;

    private Silence() {}

    /** Whether nothing comes of a channel at all, which may be for its connection. */
    public static boolean isOfConnection(Finding finding) {
        return finding.isOfSilence() && finding.grade() == Grade.WARNING;
    }
}
