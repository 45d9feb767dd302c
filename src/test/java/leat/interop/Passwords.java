package leat.interop;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/** A password file of mosquitto, written by mosquitto's own program. */
public final class Passwords {

    /** What each user of such a file logs in with. */
    public static final String WORD = "invented";

    private Passwords() {}

    /**
     * @param file which does not exist yet
     * @return the file
     */
    public static Path of(Path file, String... users) throws IOException, InterruptedException {
        Files.createFile(file);
        for (String user : users) {
            Process process =
                    new ProcessBuilder(
                                    Peer.require("mosquitto_passwd").toString(),
                                    "-b",
                                    file.toString(),
                                    user,
                                    WORD)
                            .start();
            assertThat(process.waitFor(10, TimeUnit.SECONDS)).isTrue();
            assertThat(process.exitValue()).isZero();
        }
        return file;
    }
}
