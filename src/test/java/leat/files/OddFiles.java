package leat.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;

/** Files that are none: whoever reads them waits for ever, or reads for ever. */
public final class OddFiles {

    /** Never ends. */
    public static final Path ZEROS = Path.of("/dev/zero");

    private OddFiles() {}

    /** A pipe into which nobody writes. */
    public static Path pipe(Path at) throws IOException, InterruptedException {
        Process made = new ProcessBuilder("mkfifo", at.toString()).inheritIO().start();
        assertThat(made.waitFor()).isZero();
        return at;
    }
}
