package leat.segment;

import leat.signal.Channel;

/**
 * Numbers of the kinds of inputs that are no readings, as the table {@code input_kind} has them.
 */
final class Kinds {

    static final int TICK = 100;
    static final int CLOCK_STEP = 110;
    static final int INSTRUCTION = 140;
    private static final int LOST = 200;
    private static final int BACK = 300;

    private Kinds() {}

    static int lost(Channel channel) {
        return LOST + channel.code();
    }

    static int back(Channel channel) {
        return BACK + channel.code();
    }

    static boolean isLost(int kind) {
        return kind >= LOST && kind < BACK;
    }

    static Channel channel(int kind) {
        return Channel.byCode(kind % 100);
    }
}
