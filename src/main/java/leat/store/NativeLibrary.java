package leat.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.sqlite.SQLiteJDBCLoader;
import org.sqlite.util.OSInfo;

/**
 * Where the database driver unpacks its native library: beside the database, because /tmp may be
 * mounted without the right to execute. Somebody who may only read the folder gets the driver's own
 * place, and so does everybody while the disk is full: then above all people want to look.
 */
final class NativeLibrary {

    private static final Logger log = LoggerFactory.getLogger(NativeLibrary.class);
    private static final String PROPERTY = "org.sqlite.tmpdir";

    /** One copy takes a little more than a megabyte. */
    private static final long LIBRARY_BYTES = 2 << 20;

    /** Old enough that no program can be between unpacking and loading it. */
    private static final Duration LEFT_BEHIND = Duration.ofDays(1);

    private NativeLibrary() {}

    /** Has an effect only before the first connection of this program. */
    static void prepareBeside(Path file) {
        if (System.getProperty(PROPERTY) == null) {
            choose(file.toAbsolutePath().resolveSibling("native"));
        }
        try {
            SQLiteJDBCLoader.initialize();
        } catch (Exception | LinkageError e) {
            if (!DiskRoom.isThere(file, LIBRARY_BYTES)) {
                throw new StoreException.Full(file, e);
            }
            throw new StoreException.Unavailable(file, why(e), e);
        }
    }

    private static String why(Throwable trouble) {
        String computer = OSInfo.getNativeLibFolderPathForCurrentOS();
        String library =
                "/org/sqlite/native/" + computer + "/" + System.mapLibraryName("sqlitejdbc");
        if (SQLiteJDBCLoader.class.getResource(library) == null) {
            return "leat.jar carries no database library for this computer ("
                    + computer
                    + "); it has those of Linux and macOS on x86_64 and aarch64, Linux on armv7,"
                    + " Windows on x86_64";
        }
        return "the database library cannot be loaded from "
                + System.getProperty(PROPERTY, System.getProperty("java.io.tmpdir"))
                + ". Is that folder mounted noexec? -D"
                + PROPERTY
                + "=<folder> names another ("
                + trouble.getMessage()
                + ")";
    }

    private static void choose(Path folder) {
        if (!Files.isWritable(folder.getParent()) || !DiskRoom.isThere(folder, LIBRARY_BYTES)) {
            return;
        }
        try {
            Files.createDirectories(folder);
            sweep(folder);
            System.setProperty(PROPERTY, folder.toString());
        } catch (IOException e) {
            log.warn("{}: not used for the database library: {}", folder, e.toString());
        }
    }

    /** A program that was killed leaves its copy behind, a megabyte each time. */
    private static void sweep(Path folder) throws IOException {
        Instant before = Instant.now().minus(LEFT_BEHIND);
        List<Path> copies;
        try (Stream<Path> all = Files.list(folder)) {
            copies = all.filter(p -> p.getFileName().toString().startsWith("sqlite-")).toList();
        }
        for (Path copy : copies) {
            if (Files.getLastModifiedTime(copy).toInstant().isBefore(before)) {
                Files.deleteIfExists(copy);
            }
        }
    }
}
