package leat.diagnose;

import static java.util.Objects.requireNonNull;

import leat.signal.Channel;

/** What was found wrong with the readings of a channel, whatever pressure they told. Immutable. */
public record SignalFact(Kind kind, Channel channel) {

    /** What can be wrong with readings. */
    public enum Kind {
        /**
         * Outside of what a loop can read. A channel that is silent is none: that is power or
         * network, and says nothing of its loop.
         */
        OPEN,
        /** Now there, now lost. */
        LOOSE,
        STUCK,
        SWAPPED,
        /** It has never read right. */
        NEVER_RIGHT
    }

    public SignalFact {
        requireNonNull(kind, "kind");
        requireNonNull(channel, "channel");
    }
}
