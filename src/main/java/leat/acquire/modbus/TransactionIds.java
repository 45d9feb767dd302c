package leat.acquire.modbus;

import java.security.SecureRandom;

/**
 * Draws the number under which a question is asked, so that nobody can tell it before: a frame can
 * still arrive between the last look into the socket and the question, and were the ids counted up,
 * whoever has seen some would know the next. Such a frame has the right one once in 65,500 times,
 * and never by repeating or counting on. Thread-confined.
 */
final class TransactionIds {

    /** One call of the generator for so many ids: it costs a system call. */
    private static final int DRAWN_BYTES = 1024;

    private final SecureRandom random = new SecureRandom();
    private final byte[] drawn = new byte[DRAWN_BYTES];
    private int used = DRAWN_BYTES;
    private int last;
    private int step;

    /** 0 to 65535; not what one would guess who has seen the last two. */
    int next() {
        int id = draw();
        while (isGuessed(id)) {
            id = draw();
        }
        step = id - last;
        last = id;
        return id;
    }

    private boolean isGuessed(int id) {
        return id == last || id == (last + 1 & 0xffff) || id == (last + step & 0xffff);
    }

    private int draw() {
        if (used == drawn.length) {
            random.nextBytes(drawn);
            used = 0;
        }
        return (drawn[used++] & 0xff) << 8 | drawn[used++] & 0xff;
    }
}
