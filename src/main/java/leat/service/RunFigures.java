package leat.service;

import java.util.List;
import leat.acquire.Source;
import leat.acquire.SourceHealth;
import leat.acquire.modbus.ModbusSource;
import leat.acquire.modbus.PollJitter;

/**
 * Figures of a whole run, for a measurement.
 *
 * @param inputs inputs fed to watches
 * @param readings readings delivered by the sources
 * @param lost inputs lost because leat was too far behind
 * @param missedPolls polls skipped or not taken
 * @param faults exchanges that failed
 * @param polls polls made
 * @param jitterP50Micros median of how late a poll started
 * @param jitterP99Micros 99th percentile of it
 * @param jitterMaxMicros latest start
 * @param alarms changes of alarms
 * @param alarmP50Micros median time from the newest reading to the commit of an alarm
 * @param alarmMaxMicros longest of those
 */
public record RunFigures(
        long inputs,
        long readings,
        long lost,
        long missedPolls,
        long faults,
        long polls,
        long jitterP50Micros,
        long jitterP99Micros,
        long jitterMaxMicros,
        int alarms,
        long alarmP50Micros,
        long alarmMaxMicros) {

    static RunFigures of(DaemonHealth health, List<Source> sources, AlarmLatency latency) {
        PollJitter jitter = new PollJitter();
        for (Source source : sources) {
            if (source instanceof ModbusSource modbus) {
                jitter.addAll(modbus.jitter());
            }
        }
        return new RunFigures(
                health.inputs(),
                health.sources().stream().mapToLong(SourceHealth::readings).sum(),
                health.lost(),
                health.sources().stream().mapToLong(SourceHealth::missed).sum(),
                health.sources().stream().mapToLong(SourceHealth::faults).sum(),
                jitter.polls(),
                jitter.p50().toNanos() / 1_000,
                jitter.p99().toNanos() / 1_000,
                jitter.max().toNanos() / 1_000,
                latency.count(),
                latency.quantileMicros(0.5),
                latency.quantileMicros(1));
    }
}
