package leat.measure;

import java.util.stream.Stream;
import leat.signal.Gauge;
import leat.wire.State;

/** What the figures of a steady spell are made of. */
final class SteadySums {
    long fromMicros = Gauge.NEVER;
    long toMicros = Gauge.NEVER;
    double low;
    double high;
    final Moments inlet = new Moments();
    final Moments boosted = new Moments();
    final Moments slow = new Moments();
    final Moments fast = new Moments();

    /** Means of each second, whose scatter shows how far the mean of all can be trusted. */
    final Moments inletSeconds = new Moments();

    final Moments boostedSeconds = new Moments();

    void add(SteadySecond second) {
        second.inlet.into(inlet);
        if (second.inlet.count() > 0) {
            inletSeconds.add(second.inlet.mean());
        }
        if (second.boosted.count() == 0) {
            return;
        }
        boostedSeconds.add(second.boosted.mean());
        low = boosted.count() == 0 ? second.low : Math.min(low, second.low);
        high = boosted.count() == 0 ? second.high : Math.max(high, second.high);
        fromMicros = boosted.count() == 0 ? second.fromMicros : fromMicros;
        toMicros = second.toMicros;
        second.boosted.into(boosted);
        second.slow.into(slow);
        second.fast.into(fast);
    }

    void clear() {
        fromMicros = Gauge.NEVER;
        toMicros = Gauge.NEVER;
        low = 0;
        high = 0;
        moments().forEach(Moments::clear);
    }

    private Stream<Moments> moments() {
        return Stream.of(inlet, boosted, slow, fast, inletSeconds, boostedSeconds);
    }

    void keep(State state) {
        fromMicros = state.keep("fromMicros", fromMicros);
        toMicros = state.keep("toMicros", toMicros);
        low = state.keep("low", low);
        high = state.keep("high", high);
        state.part("inlet", inlet::keep);
        state.part("boosted", boosted::keep);
        state.part("slow", slow::keep);
        state.part("fast", fast::keep);
        state.part("inletSeconds", inletSeconds::keep);
        state.part("boostedSeconds", boostedSeconds::keep);
    }
}
