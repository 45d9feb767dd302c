package leat.segment;

import leat.signal.Channel;

/**
 * Numbers of the kinds of inputs that are no readings, in segments and in rows alike; the table
 * {@code input_kind} has them in words. Never used again for another kind. Stateless.
 */
public final class Kinds {

    public static final int TICK = 100;
    public static final int CLOCK_STEP = 110;
    public static final int INSTRUCTION = 140;
    private static final int LOST = 200;
    private static final int BACK = 300;

    private Kinds() {}

    /** Of the loss of a channel. */
    public static int lost(Channel channel) {
        return LOST + channel.code();
    }

    /** Of its return. */
    public static int back(Channel channel) {
        return BACK + channel.code();
    }

    /** Whether it is the loss of some channel. */
    public static boolean isLost(int kind) {
        return kind >= LOST && kind < BACK;
    }

    /** The channel of a loss or return. */
    public static Channel channel(int kind) {
        return Channel.byCode(kind % 100);
    }
}
