package leat.acquire;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;

/** Keeps what sources offer, in order; can be told to take nothing. Thread-safe. */
public final class RecordingIntake implements Intake {

    /** One offered input. */
    public record Offered(String machine, Input input) {}

    private final List<Offered> offered = new ArrayList<>();
    private final List<Input> refused = new ArrayList<>();
    private volatile boolean full;

    @Override
    public synchronized boolean offer(String machine, Input input) {
        return full ? !refused.add(input) : offered.add(new Offered(machine, input));
    }

    @Override
    public long nowMicros() {
        Instant now = Instant.now();
        return TimeUnit.SECONDS.toMicros(now.getEpochSecond()) + now.getNano() / 1000;
    }

    public void beFull(boolean isFull) {
        full = isFull;
    }

    public synchronized List<Offered> all() {
        return List.copyOf(offered);
    }

    /** What was offered while nothing was taken. */
    public synchronized <T extends Input> List<T> refused(Class<T> kind) {
        return refused.stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    public synchronized void forget() {
        offered.clear();
    }

    public List<Reading> readings(Channel channel) {
        return of(Reading.class).stream().filter(r -> r.channel() == channel).toList();
    }

    public List<Double> values(Channel channel) {
        return readings(channel).stream()
                .filter(r -> r.quality().isUsable())
                .map(Reading::value)
                .toList();
    }

    public List<Quality> qualities(Channel channel) {
        return readings(channel).stream().map(Reading::quality).toList();
    }

    public List<SourceLost> losses() {
        return of(SourceLost.class);
    }

    public List<SourceBack> returns() {
        return of(SourceBack.class);
    }

    private <T extends Input> List<T> of(Class<T> kind) {
        return all().stream().map(Offered::input).filter(kind::isInstance).map(kind::cast).toList();
    }
}
