package leat.signal;

import java.util.Locale;
import java.util.Optional;

/** One tap of a machine's feed line. A machine has at most one channel of each role. */
public enum Channel {
    /** Gauge pressure before the booster, ahead of the shut-off valve. */
    INLET(0, true),
    /** Gauge pressure after the booster. */
    BOOSTED(1, true),
    /** Gauge pressure after the filters, where fitted. */
    FILTERED(2, true),
    /** Booster contactor: 1 while the booster is told to run. */
    RUNNING(3, false),
    /** Shut-off valve: 1 while it is open. */
    VALVE(4, false),
    /** Jet: 1 while the intensifier is told to draw water. */
    CUTTING(5, false);

    private static final Channel[] BY_CODE = values();

    private final int code;
    private final boolean pressure;

    Channel(int code, boolean pressure) {
        this.code = code;
        this.pressure = pressure;
    }

    /** The number under which the store keeps this channel; never reused for another. */
    public int code() {
        return code;
    }

    /** True for a gauge pressure in psi, false for a contact that reads 0 or 1. */
    public boolean isPressure() {
        return pressure;
    }

    /** The name used in configuration, messages and columns, such as {@code inlet}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    public static Optional<Channel> byKey(String key) {
        for (Channel channel : BY_CODE) {
            if (channel.key().equals(key)) {
                return Optional.of(channel);
            }
        }
        return Optional.empty();
    }

    /**
     * @throws IllegalArgumentException for a code that no channel has
     */
    public static Channel byCode(int code) {
        if (code < 0 || code >= BY_CODE.length) {
            throw new IllegalArgumentException("no channel has the code " + code);
        }
        return BY_CODE[code];
    }
}
