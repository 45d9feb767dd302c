package leat.live;

import static java.util.Objects.requireNonNull;

import leat.store.StoredStartup;

/**
 * The last start that was measured.
 *
 * @param startup number, time, verdict and figures
 * @param curve its first seconds; without points where the readings are no longer kept
 */
public record StartNow(StoredStartup startup, StartCurve curve) {

    public StartNow {
        requireNonNull(startup, "startup");
        requireNonNull(curve, "curve");
    }
}
