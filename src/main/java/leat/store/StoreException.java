package leat.store;

import java.nio.file.Path;
import leat.words.FaultWords;

/**
 * Trouble with the store that is to be expected in the field, in plain words: what happened, to
 * which file, what to check. A commit that throws one has written nothing.
 */
public abstract sealed class StoreException extends RuntimeException {

    private final transient Path file;

    private StoreException(Path file, String what, Throwable cause) {
        super(FaultWords.english("where", file.toString(), what), cause);
        this.file = file;
    }

    /** The database file. */
    public Path file() {
        return file;
    }

    /** No room is left on the disk. Committing the same batch again works once there is room. */
    public static final class Full extends StoreException {
        Full(Path file, Throwable cause) {
            super(file, FaultWords.english("store.full"), cause);
        }
    }

    /** Another program held the file for longer than leat waits. Trying again may work. */
    public static final class Busy extends StoreException {
        Busy(Path file, Throwable cause) {
            super(file, FaultWords.english("store.busy"), cause);
        }
    }

    /** Another leat writes to this store. */
    public static final class InUse extends StoreException {
        InUse(Path file, String holder, Throwable cause) {
            super(file, FaultWords.english("store.in-use", holder), cause);
        }
    }

    /** The file is not the one that was opened: deleted, replaced or cut while leat runs. */
    public static final class Gone extends StoreException {
        Gone(Path file, String what, Throwable cause) {
            super(file, what, cause);
        }
    }

    /** The file is of a schema that this leat does not write: newer, older, or foreign. */
    public static final class WrongSchema extends StoreException {
        WrongSchema(Path file, String what) {
            super(file, what, null);
        }
    }

    /** The file is no database, or a damaged one. */
    public static final class Damaged extends StoreException {
        Damaged(Path file, Throwable cause) {
            super(file, FaultWords.english("store.damaged"), cause);
        }
    }

    /** The file or its folder cannot be reached, read or written. */
    public static final class Unavailable extends StoreException {
        Unavailable(Path file, String what, Throwable cause) {
            super(file, what, cause);
        }
    }
}
