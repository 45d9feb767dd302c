package leat.acquire.modbus;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import leat.acquire.Intake;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;

/** Keeps what sources offer, in order; can be told to take nothing. Thread-safe. */
final class RecordingIntake implements Intake {

    /** One offered input. */
    record Offered(String machine, Input input) {}

    private final List<Offered> offered = new ArrayList<>();
    private volatile boolean full;

    @Override
    public synchronized boolean offer(String machine, Input input) {
        return !full && offered.add(new Offered(machine, input));
    }

    @Override
    public long nowMicros() {
        Instant now = Instant.now();
        return TimeUnit.SECONDS.toMicros(now.getEpochSecond()) + now.getNano() / 1000;
    }

    void beFull(boolean isFull) {
        full = isFull;
    }

    synchronized List<Offered> all() {
        return List.copyOf(offered);
    }

    synchronized void forget() {
        offered.clear();
    }

    List<Reading> readings(Channel channel) {
        return of(Reading.class).stream().filter(r -> r.channel() == channel).toList();
    }

    List<Double> values(Channel channel) {
        return readings(channel).stream()
                .filter(r -> r.quality().isUsable())
                .map(Reading::value)
                .toList();
    }

    List<Quality> qualities(Channel channel) {
        return readings(channel).stream().map(Reading::quality).toList();
    }

    List<SourceLost> losses() {
        return of(SourceLost.class);
    }

    List<SourceBack> returns() {
        return of(SourceBack.class);
    }

    private <T extends Input> List<T> of(Class<T> kind) {
        return all().stream().map(Offered::input).filter(kind::isInstance).map(kind::cast).toList();
    }
}
