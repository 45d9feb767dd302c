package leat.segment;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
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

/**
 * Takes the inputs of a segment apart into streams of like numbers: which channel is read when,
 * what each channel read, and all that is no reading. Thread-confined.
 */
final class Encoder implements Input.Receiver {

    private static final long MILLISECOND_MICROS = 1_000;

    private final long unit;
    private final long base;
    private final Sink order = new Sink();
    private final ChannelOrder guess = new ChannelOrder();
    private final Sink events = new Sink();
    private final Map<Channel, ChannelWriter> channels = new EnumMap<>(Channel.class);

    private long readings;
    private long eventCount;
    private long guessedRight;
    private long sinceEvent;
    private long lastReading;
    private long lastTick;

    Encoder(List<Input> inputs) {
        unit = unit(inputs);
        base = Math.floorDiv(inputs.get(0).atMicros(), unit);
        lastReading = base;
        lastTick = Math.floorDiv(base * unit, Tick.PERIOD_MICROS);
        inputs.forEach(input -> input.to(this));
        order.number(guessedRight);
    }

    /** Microseconds in which the stamps of all readings are whole. */
    private static long unit(List<Input> inputs) {
        for (Input input : inputs) {
            if (input instanceof Reading && input.atMicros() % MILLISECOND_MICROS != 0) {
                return 1;
            }
        }
        return MILLISECOND_MICROS;
    }

    void into(Sink sink) {
        sink.number(readings);
        sink.number(eventCount);
        sink.number(unit);
        sink.signed(base);
        Deflated.write(order, sink);
        Deflated.write(events, sink);
        sink.number(channels.size());
        for (Map.Entry<Channel, ChannelWriter> each : channels.entrySet()) {
            sink.octet(each.getKey().code());
            each.getValue().into(sink);
        }
    }

    @Override
    public void reading(Reading reading) {
        readings++;
        sinceEvent++;
        if (guess.isNext(reading.channel().code())) {
            guessedRight++;
        } else {
            order.number(guessedRight);
            order.octet(reading.channel().code());
            guessedRight = 0;
        }
        long time = reading.atMicros() / unit;
        channels.computeIfAbsent(reading.channel(), channel -> new ChannelWriter(base))
                .add(reading, time, time - lastReading);
        lastReading = time;
    }

    private void event(int kind) {
        eventCount++;
        events.number(sinceEvent);
        events.number(kind);
        sinceEvent = 0;
    }

    private void event(int kind, Input input) {
        event(kind);
        events.signed(input.atMicros() - base * unit);
    }

    @Override
    public void tick(Tick tick) {
        event(Kinds.TICK);
        long second = Math.floorDiv(tick.atMicros(), Tick.PERIOD_MICROS);
        events.signed(second - lastTick - 1);
        lastTick = second;
    }

    @Override
    public void sourceLost(SourceLost lost) {
        event(Kinds.lost(lost.channel()), lost);
        events.text(lost.reason());
    }

    @Override
    public void sourceBack(SourceBack back) {
        event(Kinds.back(back.channel()), back);
    }

    @Override
    public void clockStep(ClockStep step) {
        event(Kinds.CLOCK_STEP, step);
        events.signed(step.fromMicros() - base * unit);
    }

    @Override
    public void instruction(Instruction instruction) {
        event(Kinds.INSTRUCTION, instruction);
        events.text(instruction.by());
        events.text(RecordJson.write(Order.class, instruction.order()));
    }
}
