package leat.store;

import java.io.IOException;
import java.nio.file.FileStore;
import java.nio.file.Files;
import java.nio.file.Path;

/** How much room is left on a disk. A quota or a limit of the process does not show. */
final class DiskRoom {

    /** Less is none: the commit of a second takes some tens of kilobytes. */
    private static final long LEAST_BYTES = 64 << 10;

    private DiskRoom() {}

    /** True when the disk of a file is certainly full, whatever the error that came of it. */
    static boolean isGone(Path file) {
        return !isThere(file, LEAST_BYTES);
    }

    /** False when there is certainly less room on the disk of a file. */
    static boolean isThere(Path file, long bytes) {
        try {
            FileStore disk = Files.getFileStore(file.toAbsolutePath().getParent());
            return disk.getUsableSpace() >= bytes;
        } catch (IOException e) {
            return true; // nothing is known of it
        }
    }
}
