package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * Which startups are wanted.
 *
 * @param machine name of one machine, or empty for all
 * @param sinceMicros started at or after, microseconds UTC
 * @param untilMicros started before, microseconds UTC
 * @param slow only those that were not found good: slow, not risen, without boost
 * @param unacknowledged only those whose run, from the start until the machine's next start, raised
 *     or worsened an alarm that still waits for somebody to acknowledge it
 * @param order which come first
 * @param atMost the first so many, 1 or more
 */
public record StartupQuery(
        Optional<String> machine,
        long sinceMicros,
        long untilMicros,
        boolean slow,
        boolean unacknowledged,
        Order order,
        int atMost) {

    /** Which startups come first. */
    public enum Order {
        NEWEST,
        /** Not risen before any that has, then by the 10-90 % rise; without one last. */
        SLOWEST
    }

    public StartupQuery {
        requireNonNull(machine, "machine");
        requireNonNull(order, "order");
        if (atMost < 1) {
            throw new IllegalArgumentException("at most " + atMost + " startups are none");
        }
    }

    /** Whether it leaves none out. */
    boolean isOfEvery() {
        return machine.isEmpty()
                && sinceMicros == Long.MIN_VALUE
                && untilMicros == Long.MAX_VALUE
                && !slow
                && !unacknowledged;
    }

    /** The newest startups of all machines. */
    public static StartupQuery newest(int atMost) {
        return new StartupQuery(
                Optional.empty(),
                Long.MIN_VALUE,
                Long.MAX_VALUE,
                false,
                false,
                Order.NEWEST,
                atMost);
    }

    public StartupQuery of(String machineName) {
        return new StartupQuery(
                Optional.of(machineName),
                sinceMicros,
                untilMicros,
                slow,
                unacknowledged,
                order,
                atMost);
    }

    public StartupQuery between(long fromMicros, long toMicros) {
        return new StartupQuery(machine, fromMicros, toMicros, slow, unacknowledged, order, atMost);
    }

    /** Only those that were not found good. */
    public StartupQuery onlySlow() {
        return new StartupQuery(
                machine, sinceMicros, untilMicros, true, unacknowledged, order, atMost);
    }

    /** Only those of whose run an alarm waits to be acknowledged. */
    public StartupQuery onlyUnacknowledged() {
        return new StartupQuery(machine, sinceMicros, untilMicros, slow, true, order, atMost);
    }

    public StartupQuery slowestFirst() {
        return new StartupQuery(
                machine, sinceMicros, untilMicros, slow, unacknowledged, Order.SLOWEST, atMost);
    }
}
