package leat.replay;

import java.util.Locale;
import java.util.OptionalLong;
import leat.report.Shown;

/**
 * Times of an account: local with their offset, or in the past's own seconds.
 *
 * @param shown how numbers and times are shown
 * @param zeroMicros where the past counts its own seconds: time of second 0, microseconds UTC
 */
record AccountTimes(Shown shown, OptionalLong zeroMicros) {

    private static final double SECOND = 1e6;

    String text(long micros) {
        return zeroMicros.isPresent()
                ? String.format(Locale.ROOT, "%.1f s", (micros - zeroMicros.getAsLong()) / SECOND)
                : shown.time(micros);
    }
}
