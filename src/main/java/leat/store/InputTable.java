package leat.store;

import leat.json.RecordJson;
import leat.segment.Kinds;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;

/**
 * The rows of {@code input}. The kind of a reading is its channel's code; of a loss or return, that
 * code plus an offset. In {@code detail} stands what else there is: the time that a sensor claims,
 * the reason of a loss, an instruction's order as JSON. Thread-confined.
 */
final class InputTable implements Input.Receiver {

    /** Read with {@link #read}, after the columns that the reader wants for itself. */
    static final String READ = "kind, at_us, value, quality, detail, by_whom";

    private final Write write;

    InputTable(Db db) {
        this.write = db.insert("input", "machine, seq, " + READ);
    }

    static int readingKind(Channel channel) {
        return channel.code();
    }

    void queue(long machine, long seq, Input input) {
        write.number(machine).number(seq);
        input.to(this);
        write.queue();
    }

    void flush() {
        write.flush();
    }

    @Override
    public void reading(Reading reading) {
        write.number(readingKind(reading.channel())).number(reading.atMicros());
        if (reading.quality().isUsable()) {
            write.real(reading.value());
        } else {
            write.nothing();
        }
        write.number(reading.quality().code()).number(reading.claimedMicros()).nothing();
    }

    @Override
    public void tick(Tick tick) {
        write.number(Kinds.TICK).number(tick.atMicros()).nothing().nothing().nothing().nothing();
    }

    @Override
    public void sourceLost(SourceLost lost) {
        write.number(Kinds.lost(lost.channel())).number(lost.atMicros());
        write.nothing().nothing().text(lost.reason()).nothing();
    }

    @Override
    public void sourceBack(SourceBack back) {
        write.number(Kinds.back(back.channel())).number(back.atMicros());
        write.nothing().nothing().nothing().nothing();
    }

    @Override
    public void clockStep(ClockStep step) {
        write.number(Kinds.CLOCK_STEP).number(step.atMicros());
        write.number(step.fromMicros()).nothing().nothing().nothing();
    }

    @Override
    public void instruction(Instruction instruction) {
        write.number(Kinds.INSTRUCTION).number(instruction.atMicros()).nothing().nothing();
        write.text(RecordJson.write(Order.class, instruction.order())).text(instruction.by());
    }

    static Input read(ResultRow row) {
        int kind = (int) row.number();
        long atMicros = row.number();
        if (kind < Kinds.TICK) {
            double value = row.real();
            Quality quality = Quality.byCode((int) row.number());
            return new Reading(Channel.byCode(kind), atMicros, value, quality, row.maybeNumber());
        }
        if (kind == Kinds.TICK) {
            return new Tick(atMicros);
        }
        if (kind == Kinds.CLOCK_STEP) {
            return new ClockStep(atMicros, row.number());
        }
        String detail = row.skip(2).text();
        if (kind == Kinds.INSTRUCTION) {
            return new Instruction(atMicros, row.text(), RecordJson.read(Order.class, detail));
        }
        Channel channel = Kinds.channel(kind);
        return Kinds.isLost(kind)
                ? new SourceLost(channel, atMicros, detail)
                : new SourceBack(channel, atMicros);
    }
}
