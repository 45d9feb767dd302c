package leat.signal;

import static java.util.Objects.requireNonNull;

/**
 * A channel has stopped speaking: cable cut, device or broker gone, no message in time, or leat
 * itself was not running.
 *
 * @param channel the silent channel
 * @param atMicros when it was noticed, microseconds UTC
 * @param reason plain words with endpoint and what to check next
 */
public record SourceLost(Channel channel, long atMicros, String reason) implements Input {

    public SourceLost {
        requireNonNull(channel, "channel");
        requireNonNull(reason, "reason");
    }

    @Override
    public SourceLost at(long micros) {
        return new SourceLost(channel, micros, reason);
    }

    @Override
    public void to(Receiver receiver) {
        receiver.sourceLost(this);
    }
}
