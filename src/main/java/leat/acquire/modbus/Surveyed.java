package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import leat.config.Point.Table;

/**
 * What a look at the registers of a device brought.
 *
 * @param strips what it has, by table and address
 * @param refusals what it would not tell
 * @param fault why the look ended early, in words with what to check next
 * @param requests how many it was asked
 */
public record Surveyed(
        List<RegisterStrip> strips, List<Refusal> refusals, Optional<String> fault, int requests) {

    public Surveyed {
        strips = List.copyOf(strips);
        refusals = List.copyOf(refusals);
        requireNonNull(fault, "fault");
    }

    /**
     * The device answered with an exception.
     *
     * @param table that was asked for
     * @param from first address that it refuses
     * @param to last one
     * @param code of the exception
     * @param meaning of the code, and what to check
     */
    public record Refusal(Table table, int from, int to, int code, String meaning) {

        /** As by the Modbus specification: there is no such register. */
        public static final int ILLEGAL_ADDRESS = 2;

        public Refusal {
            requireNonNull(table, "table");
            requireNonNull(meaning, "meaning");
        }

        boolean isFollowedBy(Refusal next) {
            return table == next.table && code == next.code && to + 1 == next.from;
        }

        Refusal with(Refusal next) {
            return new Refusal(table, from, next.to, code, meaning);
        }
    }
}
