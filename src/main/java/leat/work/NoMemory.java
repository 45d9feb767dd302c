package leat.work;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;

/**
 * A program whose heap is full is no longer one that watches: some of its threads are dead, and it
 * may not even heed that it is to end. It ends at once, so that whoever started it starts it again;
 * what was committed is on the disk. Thread-safe.
 */
public final class NoMemory {

    /** As Java itself ends with {@code -XX:+ExitOnOutOfMemoryError}. */
    public static final int EXIT_CODE = 3;

    /** Made before, when there was room for it. */
    private static final byte[] WORDS =
            "leat: out of memory, ended at once. Give it more (-Xmx): README.md, Sizing\n"
                    .getBytes(StandardCharsets.US_ASCII);

    private NoMemory() {}

    /** Ends the program if that is what was thrown. */
    public static void endFor(Throwable thrown) {
        if (thrown instanceof OutOfMemoryError) {
            try (FileOutputStream err = new FileOutputStream(FileDescriptor.err)) {
                err.write(WORDS);
            } catch (IOException e) {
                // nobody is told, and it ends all the same
            } finally {
                Runtime.getRuntime().halt(EXIT_CODE);
            }
        }
    }

    /** From now on also a thread of a library that it kills ends the program. */
    public static void endForAnyThread() {
        Thread.UncaughtExceptionHandler usual = Thread.getDefaultUncaughtExceptionHandler();
        Thread.setDefaultUncaughtExceptionHandler(
                (thread, thrown) -> {
                    endFor(thrown);
                    if (usual == null) {
                        thrown.printStackTrace();
                    } else {
                        usual.uncaughtException(thread, thrown);
                    }
                });
    }
}
