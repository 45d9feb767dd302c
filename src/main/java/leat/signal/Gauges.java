package leat.signal;

import java.util.Set;
import leat.wire.State;

/** The gauges of one machine, as a person in front of it would see them. Thread-confined. */
public final class Gauges {

    private final Gauge[] byChannel = new Gauge[Channel.values().length];
    private final boolean[] wired = new boolean[byChannel.length];

    public Gauges(Set<Channel> wiredChannels) {
        for (Channel channel : Channel.values()) {
            byChannel[channel.ordinal()] = new Gauge(channel);
            wired[channel.ordinal()] = wiredChannels.contains(channel);
        }
    }

    /** Whether the machine has a transducer before the booster; many have only the one after it. */
    public boolean hasInlet() {
        return isWired(Channel.INLET);
    }

    public boolean isWired(Channel channel) {
        return wired[channel.ordinal()];
    }

    public Gauge of(Channel channel) {
        return byChannel[channel.ordinal()];
    }

    public Gauge inlet() {
        return byChannel[Channel.INLET.ordinal()];
    }

    public Gauge boosted() {
        return byChannel[Channel.BOOSTED.ordinal()];
    }

    /** The booster contactor where wired and known, else the shut-off valve. */
    public Switch runSignal() {
        Switch running = contact(Channel.RUNNING);
        return running != Switch.UNKNOWN ? running : contact(Channel.VALVE);
    }

    /** What a contact says, or that it says nothing: not wired, lost or BAD. */
    public Switch contact(Channel channel) {
        Gauge gauge = of(channel);
        if (!isWired(channel) || !gauge.isKnown()) {
            return Switch.UNKNOWN;
        }
        return gauge.latest() != 0 ? Switch.ON : Switch.OFF;
    }

    /** True when the boosted pressure is fresh, and that of the inlet where it has a gauge. */
    public boolean seeBothPressures(long nowMicros, long withinMicros) {
        return (!hasInlet() || inlet().isFresh(nowMicros, withinMicros))
                && boosted().isFresh(nowMicros, withinMicros);
    }

    public void pass(long nowMicros) {
        for (Gauge gauge : byChannel) {
            gauge.pass(nowMicros);
        }
    }

    /** Readings so far whose claimed time was not believed. */
    public long disbelieved() {
        long all = 0;
        for (Gauge gauge : byChannel) {
            all += gauge.clock().disbelieved();
        }
        return all;
    }

    public void forget(long nowMicros) {
        for (Gauge gauge : byChannel) {
            gauge.forget(nowMicros);
        }
    }

    public void keep(State state) {
        for (Gauge gauge : byChannel) {
            state.part(gauge.channel().key(), gauge::keep);
        }
    }

    /** The position of a contact as far as it is known. */
    public enum Switch {
        UNKNOWN,
        OFF,
        ON
    }
}
