package leat.signal;

import static java.util.Objects.requireNonNull;

/**
 * A lost channel speaks again.
 *
 * @param channel the channel that was lost
 * @param atMicros when its source answered again, microseconds UTC
 */
public record SourceBack(Channel channel, long atMicros) implements Input {

    public SourceBack {
        requireNonNull(channel, "channel");
    }

    @Override
    public SourceBack at(long micros) {
        return new SourceBack(channel, micros);
    }

    @Override
    public void to(Receiver receiver) {
        receiver.sourceBack(this);
    }
}
