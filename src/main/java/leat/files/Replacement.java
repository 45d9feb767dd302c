package leat.files;

import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/**
 * Puts other bytes in the place of a file that belongs to a person: the file is at each moment
 * either the old one or the new one, has the same owner and rights as far as the system lets, and
 * the old one stays beside it.
 *
 * @param file regular; where a link was named, what it leads to
 */
public record Replacement(Path file) {

    public Replacement {
        requireNonNull(file, "file");
    }

    /** What a person named. */
    public static Replacement of(Path named) throws IOException {
        return new Replacement(named.toRealPath());
    }

    /**
     * Writes the new bytes beside the file, for whoever wants to look at them first. They are left
     * there until {@link #put} or {@link #drop}.
     */
    public Path write(byte[] bytes) throws IOException {
        Path fresh = beside(".new");
        Files.copy(
                file,
                fresh,
                StandardCopyOption.REPLACE_EXISTING,
                StandardCopyOption.COPY_ATTRIBUTES);
        try (FileChannel out =
                FileChannel.open(
                        fresh, StandardOpenOption.WRITE, StandardOpenOption.TRUNCATE_EXISTING)) {
            ByteBuffer left = ByteBuffer.wrap(bytes);
            while (left.hasRemaining()) {
                out.write(left);
            }
            out.force(true);
        }
        return fresh;
    }

    /**
     * Keeps the old file as a copy and puts the new one in its place.
     *
     * @param suffix of the copy's name, such as {@code .before-20261130T110153Z}
     * @return the copy
     */
    public Path put(Path fresh, String suffix) throws IOException {
        Path kept = beside(suffix);
        Files.copy(file, kept, StandardCopyOption.COPY_ATTRIBUTES);
        Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE);
        return kept;
    }

    /** Takes the new bytes away again. */
    public void drop(Path fresh) throws IOException {
        Files.deleteIfExists(fresh);
    }

    private Path beside(String suffix) {
        return file.resolveSibling(file.getFileName() + suffix);
    }
}
