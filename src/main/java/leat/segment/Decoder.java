package leat.segment;

import leat.json.RecordJson;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;

/** Puts together what an {@link Encoder} has taken apart. Thread-confined. */
final class Decoder {

    private final long unit;
    private final long base;
    private final Source order;
    private final Source event;
    private final ChannelOrder guess = new ChannelOrder();
    private final ChannelReader[] channels = new ChannelReader[Channel.values().length];

    private long readings;
    private long events;
    private long readingsBeforeEvent;
    private long guessedRight;
    private long lastReading;
    private long lastTick;

    Decoder(Source source) {
        readings = source.count(Integer.MAX_VALUE);
        events = source.count(Integer.MAX_VALUE);
        unit = source.count(Integer.MAX_VALUE);
        base = source.signed();
        lastReading = base;
        lastTick = Math.floorDiv(base * unit, Tick.PERIOD_MICROS);
        order = Deflated.read(source);
        event = Deflated.read(source);
        for (int left = source.count(channels.length); left > 0; left--) {
            int code = source.octet();
            if (code >= channels.length) {
                throw new Source.Amiss("it has a channel that this leat does not know");
            }
            channels[code] = new ChannelReader(Channel.byCode(code), source, unit, base);
        }
        guessedRight = order.number();
        toNextEvent();
    }

    private void toNextEvent() {
        readingsBeforeEvent = events > 0 ? event.count(readings) : readings;
    }

    boolean hasNext() {
        return readings > 0 || events > 0;
    }

    Input next() {
        if (events > 0 && readingsBeforeEvent == 0) {
            return event();
        }
        readings--;
        readingsBeforeEvent--;
        return reading();
    }

    private Reading reading() {
        ChannelReader channel = channels[code()];
        if (channel == null) {
            throw new Source.Amiss("it has a reading of a channel that it does not hold");
        }
        Reading reading = channel.next(lastReading);
        lastReading = channel.time();
        return reading;
    }

    private int code() {
        int code;
        if (guessedRight > 0) {
            guessedRight--;
            code = guess.next();
        } else {
            code = order.octet();
            guessedRight = order.number();
        }
        if (code < 0 || code >= channels.length) {
            throw new Source.Amiss("it has a channel that this leat does not know");
        }
        guess.isNext(code);
        return code;
    }

    private Input event() {
        Input happened = happened();
        events--;
        toNextEvent();
        return happened;
    }

    private Input happened() {
        int kind = event.count(Integer.MAX_VALUE);
        if (kind == Kinds.TICK) {
            lastTick += 1 + event.signed();
            return new Tick(lastTick * Tick.PERIOD_MICROS);
        }
        long at = base * unit + event.signed();
        if (kind == Kinds.CLOCK_STEP) {
            return new ClockStep(at, base * unit + event.signed());
        }
        if (kind == Kinds.INSTRUCTION) {
            String by = event.text();
            return new Instruction(at, by, RecordJson.read(Order.class, event.text()));
        }
        Channel channel = Kinds.channel(kind);
        return Kinds.isLost(kind)
                ? new SourceLost(channel, at, event.text())
                : new SourceBack(channel, at);
    }
}
