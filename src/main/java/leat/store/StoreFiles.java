package leat.store;

import static java.nio.file.LinkOption.NOFOLLOW_LINKS;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The files of a store as they were when it was opened: whoever deletes or replaces one of them
 * while leat runs leaves it writing into files that nobody can find. Looks at names only. To open
 * the database here would give up the locks that this program holds on it (POSIX).
 *
 * <p>Thread-confined.
 */
final class StoreFiles {

    /** What SQLite lays beside a database. */
    static final List<String> BESIDE = List.of("-wal", "-shm", "-journal");

    private final Path database;

    /** Which file has which name; on a system without such keys, that there is one. */
    private final Map<Path, Object> opened = new LinkedHashMap<>();

    private long bytes;

    private StoreFiles(Path database) {
        this.database = database;
    }

    /** Those of a database that has just been opened and read. */
    static StoreFiles of(Path database) {
        StoreFiles files = new StoreFiles(database);
        files.look(database).ifPresent(found -> files.bytes = found.size());
        BESIDE.forEach(suffix -> files.look(beside(database, suffix)));
        return files;
    }

    static Path beside(Path database, String suffix) {
        return database.resolveSibling(database.getFileName() + suffix);
    }

    private Optional<BasicFileAttributes> look(Path file) {
        Optional<BasicFileAttributes> found = Optional.empty();
        try {
            found = attributes(file);
        } catch (IOException e) {
            // it is not known, and cannot be missed
        }
        found.ifPresent(attributes -> opened.put(file, key(attributes)));
        return found;
    }

    private static Object key(BasicFileAttributes attributes) {
        return Optional.ofNullable(attributes.fileKey()).orElse("there");
    }

    /** Empty when there is no file of this name. */
    private static Optional<BasicFileAttributes> attributes(Path file) throws IOException {
        try {
            return Optional.of(Files.readAttributes(file, BasicFileAttributes.class));
        } catch (NoSuchFileException e) {
            return Optional.empty();
        }
    }

    /** What has happened to them, in plain words; empty when nothing has. */
    Optional<String> amiss() {
        for (Map.Entry<Path, Object> each : opened.entrySet()) {
            Optional<String> amiss = amiss(each.getKey(), each.getValue());
            if (amiss.isPresent()) {
                return amiss;
            }
        }
        return Optional.empty();
    }

    private Optional<String> amiss(Path file, Object key) {
        String name = file.getFileName().toString();
        try {
            Optional<BasicFileAttributes> found = attributes(file);
            if (found.isEmpty()) {
                return Optional.of(name + " was deleted or moved away while leat runs");
            }
            if (!key(found.get()).equals(key)) {
                return Optional.of(name + " was replaced by another file while leat runs");
            }
            if (file.equals(database)) {
                long now = found.get().size();
                if (now < bytes) {
                    return Optional.of(
                            name + " was cut from " + bytes + " to " + now + " bytes by another");
                }
                bytes = now;
            }
        } catch (IOException e) {
            // the disk, or a right: the commit finds out what
        }
        return Optional.empty();
    }

    /** True when a name still belongs to the file that was opened. */
    boolean isOpened(Path file) {
        try {
            return attributes(file).map(found -> key(found).equals(opened.get(file))).orElse(false);
        } catch (IOException e) {
            return false;
        }
    }

    /** True when the database still lies there whole, whatever became of the files beside it. */
    boolean isDatabaseWhole() {
        return isOpened(database) && amiss(database, opened.get(database)).isEmpty();
    }

    /** Deletes the database, if it is still the one that was opened, and what lies beside it. */
    void discard() throws IOException {
        if (isOpened(database)) {
            Files.delete(database);
            for (String suffix : BESIDE) {
                Files.deleteIfExists(beside(database, suffix));
            }
        }
    }

    static boolean isThere(Path file) {
        return Files.exists(file, NOFOLLOW_LINKS);
    }
}
