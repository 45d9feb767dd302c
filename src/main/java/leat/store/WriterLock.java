package leat.store;

import static java.nio.file.StandardOpenOption.CREATE;
import static java.nio.file.StandardOpenOption.READ;
import static java.nio.file.StandardOpenOption.WRITE;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import leat.files.OwnFiles;

/**
 * The right to be the one writer, held through a lock on a file beside the database. The operating
 * system gives it back when the program ends, however it ends. The file itself stays: it holds the
 * number of the process that wrote last.
 *
 * <p>Within one program a second try is refused too, but on POSIX systems it costs the first its
 * lock against other programs, because closing any channel on a file gives up all locks on it. One
 * program opens a store once.
 */
final class WriterLock implements AutoCloseable {

    /** The lock lies behind the number, which others may read where locks forbid reading. */
    private static final long LOCKED_BYTE = 1_000;

    private final Path database;
    private final FileChannel channel;
    private final StoreFiles file;

    private WriterLock(Path database, FileChannel channel) {
        this.database = database;
        this.channel = channel;
        this.file = StoreFiles.of(name(database));
    }

    private static Path name(Path database) {
        return StoreFiles.beside(database, ".lock");
    }

    /** False when the file was deleted or replaced: then it keeps nobody out any more. */
    boolean holds() {
        return file.isOpened(name(database));
    }

    static WriterLock take(Path database) {
        Path file = name(database);
        try {
            OwnFiles.make(file);
            return taken(database, FileChannel.open(file, READ, WRITE, CREATE));
        } catch (IOException e) {
            if (DiskRoom.isGone(database)) {
                throw new StoreException.Full(database, e);
            }
            throw new StoreException.Unavailable(
                    database,
                    "cannot write beside it. Check owner and rights of the folder (" + e + ")",
                    e);
        }
    }

    private static WriterLock taken(Path database, FileChannel channel) throws IOException {
        WriterLock lock = new WriterLock(database, channel);
        try {
            if (lock.tryIt().isEmpty()) {
                throw new StoreException.InUse(database, lock.holder(), null);
            }
            lock.sign();
            return lock;
        } catch (IOException | StoreException e) {
            channel.close();
            throw e;
        }
    }

    private Optional<FileLock> tryIt() throws IOException {
        try {
            return Optional.ofNullable(channel.tryLock(LOCKED_BYTE, 1, false));
        } catch (OverlappingFileLockException sameProgram) {
            return Optional.empty();
        }
    }

    private String holder() throws IOException {
        ByteBuffer text = ByteBuffer.allocate(32);
        channel.read(text, 0);
        String number = new String(text.array(), 0, text.position(), StandardCharsets.US_ASCII);
        return number.isBlank() ? "" : " (process " + number.strip() + ")";
    }

    private void sign() throws IOException {
        channel.truncate(0);
        String number = ProcessHandle.current().pid() + "\n";
        channel.write(ByteBuffer.wrap(number.getBytes(StandardCharsets.US_ASCII)), 0);
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException e) {
            throw new StoreException.Unavailable(
                    database, "its lock file cannot be closed (" + e + ")", e);
        }
    }
}
