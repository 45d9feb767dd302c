package leat.system;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * A file system of its own, of a few megabytes, that a test can fill up. It takes root to mount.
 */
final class TinyDisk implements AutoCloseable {

    private static final int BLOCK = 4_096;

    private final Path folder;
    private final Path ballast;

    private TinyDisk(Path folder) {
        this.folder = folder;
        this.ballast = folder.resolve("ballast");
    }

    /** Mounts it at an empty folder, which is made; skips the test where that is not allowed. */
    static TinyDisk mount(Path folder) throws IOException {
        Files.createDirectories(folder);
        boolean mounted =
                Shell.run("mount", "-t", "tmpfs", "-o", "size=16m", "tmpfs", folder.toString());
        assumeTrue(mounted, "a file system cannot be mounted here: it takes root");
        return new TinyDisk(folder);
    }

    /** Takes all the room that is left; again, what has become free since. */
    void fill() throws IOException {
        try (OutputStream file =
                Files.newOutputStream(
                        ballast, StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
            while (true) {
                file.write(new byte[BLOCK]);
            }
        } catch (IOException e) {
            if (Files.getFileStore(folder).getUsableSpace() >= BLOCK) {
                throw e;
            }
        }
    }

    /** Gives it back. */
    void makeRoom() throws IOException {
        Files.delete(ballast);
    }

    @Override
    public void close() throws IOException {
        if (!Shell.run("umount", "--lazy", folder.toString())) {
            throw new IOException(folder + " stays mounted");
        }
    }
}
