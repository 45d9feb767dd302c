package leat.replay;

import java.util.EnumMap;
import java.util.Map;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Gauge;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.watch.Glance;

/** Counts what is fed. Thread-confined. */
final class Tally implements Input.Receiver {

    private final long gapMicros;
    private final long[] readings = new long[Channel.values().length];
    private final long[] lastMicros = new long[readings.length];
    private long inputs;
    private long uncertain;
    private long bad;
    private long gaps;
    private long longestGapMicros;
    private long firstMicros = Gauge.NEVER;
    private long toMicros = Gauge.NEVER;

    /**
     * @param gapMicros a pressure that is silent for longer than this has a gap
     */
    Tally(long gapMicros) {
        this.gapMicros = gapMicros;
        forgetTimes();
    }

    void take(Input input) {
        inputs++;
        toMicros = input.atMicros();
        if (firstMicros == Gauge.NEVER) {
            firstMicros = toMicros;
        }
        input.to(this);
    }

    private void forgetTimes() {
        java.util.Arrays.fill(lastMicros, Gauge.NEVER);
    }

    @Override
    public void reading(Reading reading) {
        int channel = reading.channel().ordinal();
        readings[channel]++;
        if (reading.quality() != Quality.GOOD) {
            uncertain += reading.quality().isUsable() ? 1 : 0;
            bad += reading.quality().isUsable() ? 0 : 1;
        }
        long last = lastMicros[channel];
        lastMicros[channel] = reading.atMicros();
        if (reading.channel().isPressure() && last != Gauge.NEVER) {
            long silence = reading.atMicros() - last;
            if (silence > gapMicros) {
                gaps++;
                longestGapMicros = Math.max(longestGapMicros, silence);
            }
        }
    }

    @Override
    public void clockStep(ClockStep step) {
        forgetTimes();
    }

    @Override
    public void tick(Tick tick) {
        // counted as an input
    }

    @Override
    public void sourceLost(SourceLost lost) {
        // counted as an input
    }

    @Override
    public void sourceBack(SourceBack back) {
        // counted as an input
    }

    @Override
    public void instruction(Instruction instruction) {
        // counted as an input
    }

    boolean isEmpty() {
        return inputs == 0;
    }

    long firstMicros() {
        return firstMicros;
    }

    /** Time of the latest input. */
    long toMicros() {
        return toMicros;
    }

    Counts counts(Glance end) {
        Map<Channel, Long> byChannel = new EnumMap<>(Channel.class);
        for (Channel channel : Channel.values()) {
            if (readings[channel.ordinal()] > 0) {
                byChannel.put(channel, readings[channel.ordinal()]);
            }
        }
        return new Counts(
                inputs,
                byChannel,
                uncertain,
                bad,
                end.outOfOrder(),
                end.ahead(),
                end.disbelieved(),
                gaps,
                longestGapMicros);
    }
}
