package leat.segment;

import java.util.OptionalLong;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.signal.Reading;

/** Reads the streams of a {@link ChannelWriter}. Thread-confined. */
final class ChannelReader {

    private final Channel channel;
    private final long unit;
    private final boolean isOnGrid;
    private final long usualStep;
    private final TimeGrid grid;
    private final Source times;
    private final Source qualities;
    private final Source claimRuns;
    private final Source claims;
    private final Values.Next values;

    private long time;
    private Quality quality = Quality.GOOD;
    private long qualityRun;
    private boolean claiming = true;
    private long claimRun;
    private long lastClaim;

    ChannelReader(Channel channel, Source source, long unit, long base) {
        this.channel = channel;
        this.unit = unit;
        isOnGrid = source.octet() == ChannelWriter.ON_GRID;
        usualStep = source.signed();
        grid = new TimeGrid(usualStep, base);
        times = Deflated.read(source);
        qualities = Deflated.read(source);
        claimRuns = Deflated.read(source);
        claims = Deflated.read(source);
        values = Values.reader(Deflated.read(source));
    }

    /**
     * @param last time of the last reading of whatever channel, in the segment's unit
     */
    Reading next(long last) {
        long residual = times.signed();
        time = isOnGrid ? grid.time(residual) : last + usualStep + residual;
        long atMicros = time * unit;
        while (qualityRun == 0) {
            qualityRun = qualities.number();
            quality = Quality.byCode(qualities.octet());
        }
        qualityRun--;
        double value = quality.isUsable() ? values.value() : 0;
        return new Reading(channel, atMicros, value, quality, claim(atMicros));
    }

    private OptionalLong claim(long atMicros) {
        while (claimRun == 0) {
            claimRun = claimRuns.number();
            claiming = !claiming;
        }
        claimRun--;
        if (!claiming) {
            return OptionalLong.empty();
        }
        lastClaim += claims.signed();
        return OptionalLong.of(atMicros + lastClaim);
    }

    /** Of the reading that was handed out last, in the segment's unit. */
    long time() {
        return time;
    }
}
