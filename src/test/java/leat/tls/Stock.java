package leat.tls;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.time.ZoneOffset;

/**
 * Files that take long to make and are the same for all tests of a build: each is made once, in
 * {@code target}, by whichever JVM asks first; the others wait for it and get copies. A new day
 * begins a new stock, so that no certificate grows old.
 *
 * @param folder of this day
 */
record Stock(Path folder) {

    /** Makes a file that is not there yet. */
    interface Making {
        void make(Path file) throws Exception;
    }

    static Stock ofToday(String name) throws IOException {
        Path folder = Path.of("target", "stock", name + "-" + LocalDate.now(ZoneOffset.UTC));
        return new Stock(Files.createDirectories(folder));
    }

    void copy(String name, Path to, Making making) throws Exception {
        Path made = folder.resolve(name);
        try (FileChannel channel =
                        FileChannel.open(
                                folder.resolve(name + ".lock"),
                                StandardOpenOption.CREATE,
                                StandardOpenOption.WRITE);
                FileLock lock = channel.lock()) {
            assert lock.isValid();
            if (!Files.exists(made)) {
                Path half = Files.createTempDirectory(folder, "half").resolve(name);
                making.make(half);
                Files.move(half, made, StandardCopyOption.ATOMIC_MOVE);
            }
        }
        Files.copy(made, to);
    }
}
