package leat.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** Root looks at a secret that the group of leat's user reads. */
@EnabledOnOs(OS.LINUX)
class ExposureTest {

    @TempDir Path folder;
    private Path secret;

    @BeforeEach
    void lend_it_to_a_group() throws IOException {
        assumeTrue(System.getProperty("user.name").equals("root"), "only root gives a file away");
        secret = Files.writeString(folder.resolve("mqtt.secret"), "s3cret");
        Files.getFileAttributeView(secret, PosixFileAttributeView.class)
                .setGroup(
                        secret.getFileSystem()
                                .getUserPrincipalLookupService()
                                .lookupPrincipalByGroupName("daemon"));
    }

    private void give(String rights) throws IOException {
        Files.setPosixFilePermissions(secret, PosixFilePermissions.fromString(rights));
    }

    @Test
    void the_group_that_root_lends_a_secret_to_may_read_it() throws IOException {
        give("rw-r-----");

        assertThat(Exposure.of(secret)).isEmpty();
    }

    @Test
    void the_remedy_for_everybody_else_leaves_the_group_in() throws IOException {
        give("rw-r--r--");

        assertThat(Exposure.of(secret))
                .contains(
                        new Exposure(
                                "0644",
                                "chmod 640 "
                                        + secret
                                        + ", in a group of the user that leat runs as"));
    }
}
