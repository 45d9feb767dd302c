package leat.store;

import java.nio.file.Path;

/**
 * Remembers which signed instructions have been seen, so that a copy of one is never followed. Of
 * each person the newest are kept, by the time at which they were signed; once there are that many,
 * what was signed before the oldest of them is refused too, unseen or not. So every instruction
 * that was ever taken is refused for good, without asking a clock: neither a restart nor a clock
 * that is set back lets one in again.
 *
 * <p>Thread-confined. Every method throws a {@link StoreException} for trouble that the field can
 * bring.
 */
public final class NonceBook implements AutoCloseable {

    /** Many more than a person signs within the few minutes in which a signature holds. */
    private static final int KEPT = 1_000;

    private final Db db;
    private final int kept;

    private NonceBook(Db db, int kept) {
        this.db = db;
        this.kept = kept;
    }

    /** Opens the book of a store that a leat has run on. */
    public static NonceBook open(Path dbFile) {
        return open(dbFile, KEPT);
    }

    static NonceBook open(Path dbFile, int kept) {
        StoreReader.requireStore(dbFile);
        Db db = Db.writingBeside(dbFile);
        try {
            Schema.current().require(db);
            return new NonceBook(db, kept);
        } catch (RuntimeException e) {
            db.close();
            throw e;
        }
    }

    /**
     * Takes a nonce, which can never be taken again. What is taken is on the disk when this
     * returns.
     *
     * @param person whose it is; each person has nonces of their own
     * @param signedSeconds when it was signed, seconds since 1970
     * @return false when it was taken before, or is too old to tell
     */
    public boolean take(String person, String nonce, long signedSeconds) {
        boolean[] taken = {false};
        db.inOneTransaction(
                () -> {
                    taken[0] = isNew(person, nonce, signedSeconds);
                    if (taken[0]) {
                        db.insert("nonce", "person, nonce, signed_s")
                                .text(person)
                                .text(nonce)
                                .number(signedSeconds)
                                .now();
                        forgetOldest(person);
                    }
                });
        return taken[0];
    }

    private boolean isNew(String person, String nonce, long signedSeconds) {
        boolean seen =
                db.number(
                                "SELECT count(*) FROM nonce WHERE person = ? AND nonce = ?",
                                person,
                                nonce)
                        > 0;
        return !seen && (count(person) < kept || signedSeconds > oldest(person));
    }

    private long count(String person) {
        return db.number("SELECT count(*) FROM nonce WHERE person = ?", person);
    }

    private long oldest(String person) {
        return db.number("SELECT min(signed_s) FROM nonce WHERE person = ?", person);
    }

    private void forgetOldest(String person) {
        db.write(
                        """
                        DELETE FROM nonce WHERE person = ? AND nonce IN
                            (SELECT nonce FROM nonce WHERE person = ?
                             ORDER BY signed_s DESC, nonce DESC LIMIT -1 OFFSET ?)
                        """)
                .text(person)
                .text(person)
                .number(kept)
                .now();
    }

    @Override
    public void close() {
        db.close();
    }
}
