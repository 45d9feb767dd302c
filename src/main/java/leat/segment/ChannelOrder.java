package leat.segment;

import java.util.Arrays;

/** Guesses which channel is read next: the one that was read after this one the last time. */
final class ChannelOrder {

    private static final int CODES = 256;

    /** After each code what came the last time; 0 is before the first reading. */
    private final int[] after = new int[CODES + 1];

    private int last;

    ChannelOrder() {
        Arrays.fill(after, -1);
    }

    /** The guess; -1 for none yet. */
    int next() {
        return after[last];
    }

    /** Notes what came; true when that was the guess. */
    boolean isNext(int code) {
        boolean right = after[last] == code;
        after[last] = code;
        last = code + 1;
        return right;
    }
}
