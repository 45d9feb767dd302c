package leat.files;

import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.Channels;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;

/**
 * A file that a person named. Only a regular file is opened, or a link to one: a pipe would let the
 * reader wait for ever, and {@code /dev/zero} never ends. What it is is asked before it is opened;
 * a pipe put in its place between the two is not noticed.
 *
 * @param path as it was named
 */
public record GivenFile(Path path) {

    private static final int KIND = 0170000;
    private static final int PIPE = 0010000;
    private static final int SOCKET = 0140000;

    public GivenFile {
        requireNonNull(path, "path");
    }

    /**
     * All of it. A file that grows meanwhile is read no further than its limit either.
     *
     * @param most bytes that are allowed
     * @throws UnfitFile when it is not there, is no regular file, is too large or cannot be read
     */
    public byte[] bytes(int most) throws UnfitFile {
        try (InputStream in = Channels.newInputStream(open())) {
            byte[] bytes = in.readNBytes(most + 1);
            if (bytes.length > most) {
                throw new UnfitFile("this file is too large", "at most " + size(most));
            }
            return bytes;
        } catch (UnfitFile e) {
            throw e;
        } catch (IOException e) {
            throw unreadable(e);
        }
    }

    /**
     * For reading from its start; the caller closes it.
     *
     * @throws UnfitFile when it is not there, is no regular file or cannot be read
     */
    public SeekableByteChannel open() throws UnfitFile {
        try {
            requireRegular();
            return Files.newByteChannel(path);
        } catch (UnfitFile e) {
            throw e;
        } catch (NoSuchFileException e) {
            throw new UnfitFile("there is no such file", "check its name and folder");
        } catch (AccessDeniedException e) {
            throw new UnfitFile(
                    "this file may not be read by this user", "check its owner and permissions");
        } catch (IOException e) {
            throw unreadable(e);
        }
    }

    /**
     * Looks what it is and does not open it.
     *
     * @throws UnfitFile when it is no regular file
     * @throws IOException when it is not there or cannot be looked at
     */
    public void requireRegular() throws IOException {
        BasicFileAttributes found = Files.readAttributes(path, BasicFileAttributes.class);
        if (found.isDirectory()) {
            throw new UnfitFile("this is a folder", "name the file in it");
        }
        if (!found.isRegularFile()) {
            throw new UnfitFile("this is " + special(), "a regular file, or a link to one");
        }
    }

    private String special() throws IOException {
        boolean tells = path.getFileSystem().supportedFileAttributeViews().contains("unix");
        int mode = tells ? (int) Files.getAttribute(path, "unix:mode") : 0;
        return switch (mode & KIND) {
            case PIPE -> "a pipe";
            case SOCKET -> "a socket";
            default -> "a device";
        };
    }

    /** The system's own words, without the name that stands before them. */
    private static UnfitFile unreadable(IOException e) {
        String words =
                e instanceof FileSystemException named && named.getReason() != null
                        ? named.getReason()
                        : e.getClass().getSimpleName();
        return new UnfitFile("this file cannot be read: " + words, "");
    }

    private static String size(int bytes) {
        return bytes >= 1 << 20 ? (bytes >> 20) + " MB" : bytes + " bytes";
    }
}
