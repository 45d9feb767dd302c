package leat.store;

import static java.nio.file.StandardCopyOption.ATOMIC_MOVE;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import leat.files.OwnFiles;
import leat.words.FaultWords;

/**
 * Copies a store as it is at one moment into one file, proves the copy, and only then gives it its
 * name. Thread-confined.
 */
final class Copy {

    private Copy() {}

    /**
     * @param from the store; whoever writes to it goes on meanwhile
     * @param to where there is no file yet; only its maker can read it
     * @throws StoreException when the copy cannot be made, or is not sound: then nothing is left of
     *     it
     */
    static void make(Db from, Path to) {
        Path part = StoreFiles.beside(to, ".part");
        try {
            Files.deleteIfExists(part);
            OwnFiles.make(part);
            try {
                from.write("VACUUM INTO ?").text(part.toString()).now();
                prove(part);
                try (FileChannel file = FileChannel.open(part, StandardOpenOption.WRITE)) {
                    file.force(true);
                }
                Files.move(part, to, ATOMIC_MOVE);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw new StoreException.Unavailable(
                    to, FaultWords.english("store.copy", e.toString()), e);
        }
    }

    private static void prove(Path part) {
        try (Db copy = Db.glancing(part)) {
            Schema.current().require(copy);
            String found = copy.first("PRAGMA integrity_check", ResultRow::text).orElse("");
            if (!found.equals("ok")) {
                throw new StoreException.Damaged(part, null);
            }
        }
    }
}
