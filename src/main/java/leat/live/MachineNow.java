package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.ServiceChange;
import leat.signal.Channel;

/**
 * A machine as it is now, or as it was when leat last stored something of it.
 *
 * @param name its name
 * @param phase what its line does; empty where leat has never fed it
 * @param gauges those that are wired, in the order of {@link Channel}
 * @param readMicros its last reading of a pressure, of whatever quality, microseconds UTC; empty
 *     where none is known
 * @param setPsi the level that its regulator is set to, psi
 * @param boost boosted over inlet pressure; empty where it tells nothing now
 * @param lastStart the start that was measured last
 * @param climb the start that is not measured yet
 * @param alarms what stands, the worst first
 * @param aside what has gone and waits for somebody, or is shelved or held back; the worst first
 * @param service the work on it that goes on
 */
public record MachineNow(
        String name,
        Optional<PhaseNow> phase,
        List<GaugeNow> gauges,
        OptionalLong readMicros,
        double setPsi,
        Optional<BoostNow> boost,
        Optional<StartNow> lastStart,
        Optional<StartCurve> climb,
        List<AlarmNow> alarms,
        List<AlarmNow> aside,
        Optional<ServiceChange> service) {

    public MachineNow {
        requireNonNull(name, "name");
        requireNonNull(phase, "phase");
        gauges = List.copyOf(gauges);
        requireNonNull(readMicros, "readMicros");
        requireNonNull(boost, "boost");
        requireNonNull(lastStart, "lastStart");
        requireNonNull(climb, "climb");
        alarms = List.copyOf(alarms);
        aside = List.copyOf(aside);
        requireNonNull(service, "service");
    }

    /** Empty where it is not wired. */
    public Optional<GaugeNow> gauge(Channel channel) {
        return gauges.stream().filter(gauge -> gauge.channel() == channel).findFirst();
    }
}
