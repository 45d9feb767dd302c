package leat.live;

import java.util.List;
import java.util.Optional;
import leat.live.GaugeNow.Showing;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.store.StoreReader;

/**
 * What was last heard of one channel. It looks only at what has come since it looked last, so that
 * a channel that is silent costs no more than one that speaks. Thread-confined.
 */
final class Ear {

    /**
     * So many inputs it looks back at first: at 20 readings a second of two pressures some 20
     * minutes.
     */
    private static final long LOOKS_BACK = 50_000;

    private final String machine;
    private final Channel channel;
    private long heardTo;
    private Optional<Reading> last = Optional.empty();
    private Optional<SourceLost> loss = Optional.empty();

    Ear(String machine, Channel channel) {
        this.machine = machine;
        this.channel = channel;
    }

    /** Hears what has come up to and with an input. */
    void listen(StoreReader reader, long toSeq) {
        long after = Math.max(heardTo, toSeq - LOOKS_BACK);
        if (toSeq > after) {
            reader.latest(machine, channel, after, toSeq).ifPresent(this::hear);
        }
        heardTo = toSeq;
    }

    private void hear(Input input) {
        loss = Optional.empty();
        if (input instanceof Reading reading) {
            last = Optional.of(reading);
        } else if (input instanceof SourceLost lost) {
            loss = Optional.of(lost);
        }
    }

    Channel channel() {
        return channel;
    }

    Optional<Reading> last() {
        return last;
    }

    /**
     * @param oldestMicros what is older than this is not of this moment
     */
    GaugeNow gauge(long oldestMicros, List<LimitNow> limits) {
        Showing showing = showing(oldestMicros);
        return new GaugeNow(
                channel,
                showing,
                last,
                showing == Showing.LOST ? loss.map(SourceLost::reason).orElse("") : "",
                limits);
    }

    private Showing showing(long oldestMicros) {
        if (loss.isPresent()) {
            return Showing.LOST;
        }
        if (last.isEmpty()) {
            return Showing.NOTHING;
        }
        if (last.get().atMicros() < oldestMicros) {
            return Showing.SILENT;
        }
        return last.get().quality().isUsable() ? Showing.NOW : Showing.BAD;
    }
}
