package leat.store;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Predicate;

/**
 * Puts a new file in the place of one that is gone. What does not work is tried again later, from
 * where it failed. Thread-confined.
 */
final class Renewal {

    /** What could not be begun is tried again so many commits later: it may be large. */
    private static final int ATTEMPTS_SKIPPED = 9;

    /** A file that is lost again and again is begun ever more seldom, but once an hour. */
    private static final int MOST_SKIPPED = 3_600;

    /**
     * After so many tries that found no room the history is left: a deleted file keeps its room for
     * as long as leat has it open.
     */
    private static final int TRIES_FOR_ROOM = 2;

    private final Path file;
    private final Schema schema;

    /** A new file that has taken its name and could not be opened yet. */
    private Optional<Placed> placed = Optional.empty();

    private int goodCommits;

    private int withoutRoom;
    private int attemptsToSkip;
    private int skippedNext = ATTEMPTS_SKIPPED;
    private Optional<StoreException> failed = Optional.empty();

    private record Placed(StoreFiles files, BegunAnew begun) {}

    /**
     * A new file, open for writing.
     *
     * @param begun what it holds
     */
    record Renewed(Db db, BegunAnew begun) {}

    Renewal(Path file, Schema schema) {
        this.file = file;
        this.schema = schema;
    }

    /**
     * Begins it.
     *
     * @param why what was found
     * @param before the files that were open
     * @param carry writes into it what they held; false when that cannot be read
     * @param carryLittle writes into it what must not be lost, where there is no room for more
     * @param otherwise writes into it what it needs then
     */
    Renewed begin(
            StoreException why,
            StoreFiles before,
            Predicate<NewFile> carry,
            Consumer<NewFile> carryLittle,
            Consumer<Db> otherwise) {
        goodCommits = 0;
        if (attemptsToSkip > 0) {
            attemptsToSkip--;
            throw failed.orElse(why);
        }
        try {
            Placed next =
                    placed.filter(each -> each.files().isDatabaseWhole())
                            .orElseGet(() -> place(before, carry, carryLittle, otherwise));
            placed = Optional.of(next);
            Db db = opened(next);
            placed = Optional.empty();
            failed = Optional.empty();
            withoutRoom = 0;
            attemptsToSkip = skippedNext;
            skippedNext = Math.min(2 * skippedNext, MOST_SKIPPED);
            return new Renewed(db, next.begun());
        } catch (StoreException e) {
            withoutRoom += e instanceof StoreException.Full ? 1 : 0;
            failed = Optional.of(e);
            attemptsToSkip = ATTEMPTS_SKIPPED;
            throw e;
        }
    }

    /** One that is no database goes: the next attempt makes it anew. */
    private Db opened(Placed next) {
        try {
            return schema.migrated(Db.writing(file));
        } catch (StoreException.Damaged e) {
            placed = Optional.empty();
            try {
                next.files().discard();
            } catch (IOException left) {
                e.addSuppressed(left);
            }
            throw e;
        }
    }

    /** One more commit has gone through: after an hour of them the file counts as kept. */
    void isKept() {
        failed = Optional.empty();
        goodCommits++;
        if (goodCommits >= MOST_SKIPPED) {
            attemptsToSkip = 0;
            skippedNext = ATTEMPTS_SKIPPED;
        }
    }

    private Placed place(
            StoreFiles before,
            Predicate<NewFile> carry,
            Consumer<NewFile> carryLittle,
            Consumer<Db> otherwise) {
        try (NewFile fresh = new NewFile(file, schema)) {
            boolean carried = false;
            boolean hasRoom = true;
            try {
                carried = carry.test(fresh);
            } catch (StoreException.Full e) {
                if (withoutRoom < TRIES_FOR_ROOM) {
                    throw e;
                }
                hasRoom = false;
                carryLittle.accept(fresh);
            }
            if (!carried) {
                fresh.write(otherwise);
            }
            fresh.prove();
            String moved = fresh.takePlace(before);
            String words =
                    carried
                            ? "everything but the readings was carried over"
                            : hasRoom
                                    ? "what it held cannot be read any more"
                                    : "there is no room to carry over what it held";
            return new Placed(StoreFiles.of(file), new BegunAnew(carried, words + moved));
        } catch (IOException e) {
            throw new StoreException.Unavailable(
                    file, "no new one can be begun. Check owner, rights and disk (" + e + ")", e);
        }
    }
}
