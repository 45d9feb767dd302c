package leat.segment;

import java.util.Arrays;
import leat.signal.Quality;
import leat.signal.Reading;

/** The streams of one channel: stamps, qualities, what the sensor claims, numbers. */
final class ChannelWriter {

    /** Stamps are told from the last reading of whatever channel: of one poll they are the same. */
    static final int AFTER_LAST = 0;

    /** Or from a grid of the channel's own. */
    static final int ON_GRID = 1;

    private final long base;
    private long[] times = new long[64];
    private long[] afterLast = new long[64];
    private double[] values = new double[64];
    private int count;
    private int usable;

    private final Sink qualities = new Sink();
    private Quality quality = Quality.GOOD;
    private long qualityRun;

    private final Sink claims = new Sink();
    private final Sink claimRuns = new Sink();
    private boolean claiming;
    private long claimRun;
    private long lastClaim;

    /**
     * @param base time of the segment's first input, in its unit
     */
    ChannelWriter(long base) {
        this.base = base;
    }

    /**
     * @param time when, in the segment's unit
     * @param sinceLast time since the last reading of whatever channel
     */
    void add(Reading reading, long time, long sinceLast) {
        if (count == times.length) {
            times = Arrays.copyOf(times, 2 * count);
            afterLast = Arrays.copyOf(afterLast, 2 * count);
            values = Arrays.copyOf(values, 2 * count);
        }
        times[count] = time;
        afterLast[count] = sinceLast;
        count++;
        if (reading.quality().isUsable()) {
            values[usable++] = reading.value();
        }
        quality(reading.quality());
        claim(reading);
    }

    private void quality(Quality now) {
        if (now != quality) {
            endQuality();
            quality = now;
        }
        qualityRun++;
    }

    private void endQuality() {
        qualities.number(qualityRun);
        qualities.octet(quality.code());
        qualityRun = 0;
    }

    private void claim(Reading reading) {
        boolean claimed = reading.claimedMicros().isPresent();
        if (claimed != claiming) {
            claimRuns.number(claimRun);
            claimRun = 0;
            claiming = claimed;
        }
        claimRun++;
        if (claimed) {
            long claim = reading.claimedMicros().getAsLong() - reading.atMicros();
            claims.signed(claim - lastClaim);
            lastClaim = claim;
        }
    }

    void into(Sink sink) {
        endQuality();
        claimRuns.number(claimRun);
        times(sink);
        Deflated.write(qualities, sink);
        Deflated.write(claimRuns, sink);
        Deflated.write(claims, sink);
        Sink numbers = new Sink();
        if (usable > 0) {
            Values.write(Arrays.copyOf(values, usable), numbers);
        }
        Deflated.write(numbers, sink);
    }

    private void times(Sink sink) {
        long[] own = new long[count];
        for (int i = 0; i < count; i++) {
            own[i] = times[i] - (i == 0 ? base : times[i - 1]);
        }
        long period = median(own);
        TimeGrid grid = new TimeGrid(period, base);
        for (int i = 0; i < count; i++) {
            own[i] = grid.residual(times[i]);
        }
        long[] steps = Arrays.copyOf(afterLast, count);
        long usual = median(steps);
        for (int i = 0; i < count; i++) {
            steps[i] -= usual;
        }
        Sink onGrid = times(ON_GRID, period, own);
        Sink afterLastOne = times(AFTER_LAST, usual, steps);
        Sink shorter = onGrid.size() < afterLastOne.size() ? onGrid : afterLastOne;
        sink.bytes(shorter.array(), shorter.size());
    }

    private static Sink times(int way, long usual, long[] residuals) {
        Sink plain = new Sink();
        for (long residual : residuals) {
            plain.signed(residual);
        }
        Sink sink = new Sink();
        sink.octet(way);
        sink.signed(usual);
        Deflated.write(plain, sink);
        return sink;
    }

    private static long median(long[] numbers) {
        long[] sorted = numbers.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }
}
