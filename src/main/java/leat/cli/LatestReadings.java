package leat.cli;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.store.Run;
import leat.store.StoreReader;
import leat.wiring.Steadiness;

/**
 * The readings of one channel that leat has just stored.
 *
 * @param reader borrowed
 * @param machine name of the machine
 * @param channel a pressure
 */
record LatestReadings(StoreReader reader, String machine, Channel channel) {

    private static final long SECOND_MICROS = 1_000_000;

    /** The store is committed once a second, and leat's clock may lag behind the computer's. */
    private static final long LATE_MICROS = 5 * SECOND_MICROS;

    /**
     * What it read over so long.
     *
     * @param nowMicros the time of day
     * @param configHash of the site file as it is
     */
    Steadiness over(Duration time, long nowMicros, String configHash) {
        requireSameConfiguration(configHash);
        long from = nowMicros - time.toMillis() * 1000;
        List<Reading> readings = new ArrayList<>();
        OptionalLong first = reader.firstSeqAt(machine, from);
        first.ifPresent(
                seq ->
                        reader.inputs(
                                machine,
                                seq - 1,
                                Long.MAX_VALUE,
                                (number, input) -> {
                                    if (input instanceof Reading reading
                                            && reading.channel() == channel
                                            && reading.atMicros() >= from) {
                                        readings.add(reading);
                                    }
                                }));
        long latest = readings.stream().mapToLong(Reading::atMicros).max().orElse(from);
        if (readings.isEmpty() || nowMicros - latest > LATE_MICROS) {
            throw failed("cli.zero.no-reading", machine, channel.key());
        }
        return Steadiness.of(readings);
    }

    /** Stored readings are pressures: of another scale they would be corrected twice. */
    private void requireSameConfiguration(String configHash) {
        List<Run> runs = reader.runs(1);
        if (!runs.isEmpty() && !runs.get(0).configHash().equals(configHash)) {
            throw failed("cli.zero.other-site");
        }
    }

    private static CommandFailure.Expected failed(String key, Object... values) {
        return new CommandFailure.Expected(ExitCode.FAILED, key, values);
    }
}
