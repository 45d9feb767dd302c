package leat.system;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A disk of its own with ext4 on it, which a test can make fail: the kernel then lets nobody write
 * until it is mounted anew. It takes root to mount.
 */
final class LoopDisk implements AutoCloseable {

    private static final long BYTES = 32 << 20;

    private final Path image;
    private final Path folder;

    private LoopDisk(Path image, Path folder) {
        this.image = image;
        this.folder = folder;
    }

    /** Mounts it at an empty folder, which is made; skips the test where that is not allowed. */
    static LoopDisk mount(Path folder) throws IOException {
        Files.createDirectories(folder);
        Path image = folder.resolveSibling(folder.getFileName() + ".img");
        try (RandomAccessFile file = new RandomAccessFile(image.toFile(), "rw")) {
            file.setLength(BYTES);
        }
        LoopDisk disk = new LoopDisk(image, folder);
        assumeTrue(
                Shell.run("mkfs.ext4", "-q", image.toString()) && disk.mount(),
                "a disk cannot be mounted here: it takes root, loop devices and mkfs.ext4");
        return disk;
    }

    private boolean mount() {
        return Shell.run("mount", "-o", "loop", image.toString(), folder.toString());
    }

    /** As after an error of the disk: read-only, whoever has files open. */
    void fail() throws IOException {
        if (!Shell.run("mount", "-o", "remount,abort", folder.toString())) {
            throw new IOException(folder + " does not fail");
        }
    }

    /** Somebody repairs it while nobody has a file of it open. */
    void repair() throws IOException {
        if (!Shell.run("umount", folder.toString()) || !mount()) {
            throw new IOException(folder + " is not mounted again");
        }
    }

    @Override
    public void close() throws IOException {
        if (!Shell.run("umount", "--lazy", folder.toString())) {
            throw new IOException(folder + " stays mounted");
        }
    }
}
