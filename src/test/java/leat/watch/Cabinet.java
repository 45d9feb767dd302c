package leat.watch;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import leat.bench.line.LineState;
import leat.bench.sensor.Tap;
import leat.bench.sensor.Transmitter;
import leat.signal.Channel;
import leat.signal.Conversion;
import leat.signal.Input;
import leat.signal.SourceBack;
import leat.signal.SourceLost;

/**
 * Reads the transmitters of one machine, and is cut off with its network: then nothing comes, after
 * a second the channels are lost, and afterwards they are back, in the order in which the daemon's
 * sources say it. Where the clock was set it says so, to part what comes before from what comes
 * after. Thread-confined.
 */
final class Cabinet {

    /** As {@code acquire.modbus.Delivery} has it. */
    private static final long LOST_AFTER = 1_000_000;

    private static final Map<Channel, Tap> TAPS =
            Map.of(
                    Channel.INLET, Tap.INLET,
                    Channel.BOOSTED, Tap.BOOSTED,
                    Channel.FILTERED, Tap.FILTERED);

    private final Map<Channel, Conversion> conversions;
    private final Map<Tap, Transmitter> transmitters;
    private List<Input> inputs = new ArrayList<>();
    private boolean lost;
    private boolean clockWasSet;

    /**
     * @param conversions of the channels that are wired
     */
    Cabinet(Map<Channel, Conversion> conversions, Map<Tap, Transmitter> transmitters) {
        this.conversions = new EnumMap<>(conversions);
        this.transmitters = transmitters;
    }

    /** So long after the last look the line is like this. */
    void see(long atMicros, long afterMicros, LineState truth, MonthPlan.Span cut) {
        transmitters.forEach((tap, one) -> one.advance(tap.psi(truth), afterMicros / 1e6));
        long shown = MonthPlan.shown(atMicros);
        if (shown != atMicros && !clockWasSet) {
            clockWasSet = true;
            inputs.add(MonthPlan.clockStep());
        }
        if (cut.has(atMicros)) {
            if (!lost && atMicros >= cut.fromMicros() + LOST_AFTER) {
                lost = true;
                conversions.keySet().forEach(channel -> inputs.add(loss(channel, shown)));
            }
            return;
        }
        if (lost) {
            lost = false;
            conversions.keySet().forEach(channel -> inputs.add(new SourceBack(channel, shown)));
        }
        contact(Channel.RUNNING, shown, truth.running());
        contact(Channel.VALVE, shown, truth.valveOpen());
        TAPS.forEach((channel, tap) -> pressure(channel, tap, shown));
    }

    private static SourceLost loss(Channel channel, long at) {
        return new SourceLost(channel, at, "cabinet-1: silent for 1.0 s: no route to it");
    }

    private void contact(Channel channel, long at, boolean on) {
        if (conversions.containsKey(channel)) {
            inputs.add(conversions.get(channel).read(channel, at, on ? 1 : 0));
        }
    }

    private void pressure(Channel channel, Tap tap, long at) {
        if (conversions.containsKey(channel)) {
            int counts = transmitters.get(tap).convert();
            inputs.add(conversions.get(channel).read(channel, at, counts));
        }
    }

    /** What has come since it was asked last. */
    List<Input> taken() {
        List<Input> all = inputs;
        inputs = new ArrayList<>();
        return all;
    }
}
