package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.OptionalLong;

/**
 * What a store holds of one machine's readings.
 *
 * @param machine its name
 * @param readings kept at present, packed or not
 * @param seconds of running that they span
 * @param sinceMicros time of the oldest, microseconds UTC; empty where there is none
 * @param packedReadings those in segments
 * @param packedSeconds the seconds that segments span
 * @param packedBytes what the segments take
 */
public record HeldReadings(
        String machine,
        long readings,
        long seconds,
        OptionalLong sinceMicros,
        long packedReadings,
        long packedSeconds,
        long packedBytes) {

    /** A blob's length is told without reading it. */
    static final String ALL =
            """
            SELECT m.name, m.samples, m.ticks,
                   coalesce((SELECT from_us FROM segment WHERE machine = m.id
                             ORDER BY first_seq LIMIT 1),
                            (SELECT at_us FROM input WHERE machine = m.id ORDER BY seq LIMIT 1)),
                   s.samples, s.ticks, s.bytes
            FROM machine m LEFT JOIN
                (SELECT machine, sum(samples) AS samples, sum(ticks) AS ticks,
                        sum(length(body)) AS bytes FROM segment GROUP BY machine) s
                ON s.machine = m.id
            ORDER BY m.id
            """;

    public HeldReadings {
        requireNonNull(machine, "machine");
        requireNonNull(sinceMicros, "sinceMicros");
    }

    static HeldReadings read(ResultRow row) {
        return new HeldReadings(
                row.text(),
                row.number(),
                row.number(),
                row.maybeNumber(),
                row.number(),
                row.number(),
                row.number());
    }
}
