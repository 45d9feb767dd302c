package leat.page;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.time.Duration;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.LongSupplier;

/**
 * How often an address has shown a wrong token. After ten it may try once in six seconds; until
 * then it is told to wait and what it shows is not looked at, so that guessing is slow and holds no
 * thread. Of an IPv6 address the network counts (its first 64 bits). Thread-safe.
 */
final class WrongTokens {

    private static final int ALLOWED = 10;
    private static final long EACH_NANOS = Duration.ofSeconds(6).toNanos();

    /** So many addresses are remembered; the one that was wrong longest ago is forgotten. */
    private static final int MOST_ADDRESSES = 1_000;

    private static final int NETWORK_BYTES = 8;

    private final LongSupplier nanos;

    /** Until when each has used up its tries, in the time of {@code nanos}. */
    private final Map<String, Long> usedUntil = new LinkedHashMap<>();

    WrongTokens(LongSupplier nanos) {
        this.nanos = nanos;
    }

    synchronized boolean mayTry(InetAddress address) {
        Long until = usedUntil.get(place(address));
        return until == null || until - nanos.getAsLong() <= (ALLOWED - 1) * EACH_NANOS;
    }

    synchronized void wrong(InetAddress address) {
        String place = place(address);
        long now = nanos.getAsLong();
        Long until = usedUntil.remove(place);
        long from = until == null || until - now < 0 ? now : until;
        usedUntil.put(place, from + EACH_NANOS);
        if (usedUntil.size() > MOST_ADDRESSES) {
            usedUntil.remove(usedUntil.keySet().iterator().next());
        }
    }

    private static String place(InetAddress address) {
        byte[] bytes = address.getAddress();
        return HexFormat.of()
                .formatHex(
                        address instanceof Inet6Address
                                ? Arrays.copyOf(bytes, NETWORK_BYTES)
                                : bytes);
    }
}
