package leat.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import leat.files.OwnFiles;
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

    /** Its name, beside the database. */
    static final String FOLDER = "native";

    private NativeLibrary() {}

    /** Has an effect only before the first connection of this program. */
    static void prepareBeside(Path file) {
        if (System.getProperty(PROPERTY) == null) {
            choose(file.toAbsolutePath().resolveSibling(FOLDER));
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
        if (!isWritable(folder) || !DiskRoom.isThere(folder, LIBRARY_BYTES)) {
            return;
        }
        try {
            OwnFiles.makeFolder(folder);
            sweep(folder);
            Path own = folder.resolve(Long.toString(ProcessHandle.current().pid()));
            OwnFiles.makeFolder(own);
            own.toFile().deleteOnExit();
            System.setProperty(PROPERTY, own.toString());
        } catch (IOException e) {
            log.warn("{}: not used for the database library: {}", folder, e.toString());
        }
    }

    private static boolean isWritable(Path folder) {
        return Files.isWritable(Files.exists(folder) ? folder : folder.getParent());
    }

    /**
     * A program that was killed leaves its copy behind, a megabyte each time. Each has a folder of
     * its own, named by its process; one of this very process is of an earlier one.
     */
    static void sweep(Path folder) throws IOException {
        for (Path each : list(folder)) {
            if (!isInUse(each.getFileName().toString())) {
                delete(each);
            }
        }
    }

    private static boolean isInUse(String name) {
        return name.matches("[0-9]{1,18}")
                && Long.parseLong(name) != ProcessHandle.current().pid()
                && ProcessHandle.of(Long.parseLong(name)).isPresent();
    }

    private static void delete(Path left) {
        try {
            if (Files.isDirectory(left, LinkOption.NOFOLLOW_LINKS)) {
                for (Path copy : list(left)) {
                    Files.delete(copy);
                }
            }
            Files.delete(left);
        } catch (IOException e) {
            log.debug("{}: another user's, or on its way out by itself", left, e);
        }
    }

    private static List<Path> list(Path folder) throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.toList();
        }
    }
}
