package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.OptionalLong;

/**
 * How far the record of a machine has come. Where a number is as it was, nothing of that kind has
 * come since; 0 where there is none.
 *
 * @param machine name of the machine
 * @param input the last input
 * @param tickMicros the last whole second that it was fed, microseconds UTC; empty before the first
 * @param phase the input that changed its phase last
 * @param start the input that completed its last startup
 * @param run the input after which its run was judged last
 * @param service the input at which work on it began or ended last
 */
public record MachineHead(
        String machine,
        long input,
        OptionalLong tickMicros,
        long phase,
        long start,
        long run,
        long service) {

    /** The last tick is a second behind the last input: a walk back along the key finds it soon. */
    static final String ALL =
            """
            SELECT m.name,
                   (SELECT max(seq) FROM input WHERE machine = m.id),
                   (SELECT at_us FROM input WHERE machine = m.id AND +kind = 100
                    ORDER BY seq DESC LIMIT 1),
                   {newest phase-changed}, {newest startup-measured}, {newest run-judged},
                   {newest service-changed}
            FROM machine m ORDER BY m.id
            """
                    .replaceAll(
                            "\\{newest ([a-z-]+)\\}",
                            "(SELECT max(seq) FROM outcome INDEXED BY outcome_kind"
                                    + " WHERE kind = '$1' AND machine = m.id)");

    public MachineHead {
        requireNonNull(machine, "machine");
        requireNonNull(tickMicros, "tickMicros");
    }

    static MachineHead read(ResultRow row) {
        return new MachineHead(
                row.text(),
                row.number(),
                row.maybeNumber(),
                row.number(),
                row.number(),
                row.number(),
                row.number());
    }
}
