package leat.store;

import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Set;
import leat.words.FaultWords;
import org.sqlite.SQLiteException;

/** From what the database says to what a person can act on. Immutable. */
record SqlTrouble(Path file) {

    private static final int PERM = 3;
    private static final int BUSY = 5;
    private static final int LOCKED = 6;
    private static final int NO_MEMORY = 7;
    private static final int READ_ONLY = 8;
    private static final int IO = 10;
    private static final int CORRUPT = 11;
    private static final int FULL = 13;
    private static final int CANNOT_OPEN = 14;
    private static final int PROTOCOL = 15;
    private static final int AUTH = 23;
    private static final int NOT_A_DATABASE = 26;

    /** The file ends within a page: it was cut. */
    private static final int SHORT_READ = IO | 2 << 8;

    /** Extended codes of a file that gives nothing any more: bad blocks, a mount that is gone. */
    private static final Set<Integer> UNREADABLE =
            Set.of(IO | 1 << 8, SHORT_READ, IO | 7 << 8, IO | 9 << 8, IO | 33 << 8);

    /** The primary result code is the low byte of an extended one. */
    private static final int PRIMARY = 0xff;

    /** An expected trouble, or an {@link IllegalStateException} for what only a bug can cause. */
    RuntimeException of(SQLException cause) {
        int code = cause.getErrorCode() & PRIMARY;
        if ((code == IO || code == CANNOT_OPEN) && DiskRoom.isGone(file)) {
            return new StoreException.Full(file, cause);
        }
        if (extended(cause) == SHORT_READ) {
            return new StoreException.Damaged(file, cause);
        }
        return switch (code) {
            case FULL -> new StoreException.Full(file, cause);
            case BUSY, LOCKED -> new StoreException.Busy(file, cause);
            case CORRUPT, NOT_A_DATABASE -> new StoreException.Damaged(file, cause);
            case READ_ONLY, PERM, AUTH -> unavailable("store.no-right", cause);
            case CANNOT_OPEN -> unavailable("store.unopened", cause);
            case IO, PROTOCOL -> unavailable("store.disk", cause);
            case NO_MEMORY -> unavailable("store.memory", cause);
            default ->
                    new IllegalStateException(file + ": unexpected: " + cause.getMessage(), cause);
        };
    }

    /** True when the file cannot be read now and will not be later. */
    static boolean isUnreadable(StoreException e) {
        return e instanceof StoreException.Damaged
                || e instanceof StoreException.Unavailable
                        && e.getCause() instanceof SQLException cause
                        && UNREADABLE.contains(extended(cause));
    }

    /** The driver's own exception tells it elsewhere. */
    private static int extended(SQLException cause) {
        return cause instanceof SQLiteException own
                ? own.getResultCode().code
                : cause.getErrorCode();
    }

    private StoreException unavailable(String key, SQLException cause) {
        return new StoreException.Unavailable(
                file, FaultWords.english(key, String.valueOf(cause.getMessage())), cause);
    }
}
