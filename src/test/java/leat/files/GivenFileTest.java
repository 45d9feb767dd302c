package leat.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.ServerSocketChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(value = 20, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class GivenFileTest {

    private static final int MOST = 10;

    @TempDir Path folder;

    private static String trouble(Path file) {
        UnfitFile unfit =
                catchThrowableOfType(UnfitFile.class, () -> new GivenFile(file).bytes(MOST));
        assertThat(unfit).as("%s is of no use", file).isNotNull();
        return unfit.getMessage() + "; " + unfit.wanted();
    }

    @Test
    void a_regular_file_is_read_to_its_limit_and_also_by_a_link() throws IOException {
        Path file = Files.writeString(folder.resolve("full"), "0123456789");
        Path link = Files.createSymbolicLink(folder.resolve("link"), file);

        assertThat(new GivenFile(file).bytes(MOST)).asString(UTF_8).isEqualTo("0123456789");
        assertThat(new GivenFile(link).bytes(MOST)).asString(UTF_8).isEqualTo("0123456789");
    }

    @Test
    void one_byte_more_than_allowed_is_too_large() throws IOException {
        Path file = Files.writeString(folder.resolve("large"), "0123456789a");

        assertThat(trouble(file)).isEqualTo("this file is too large; at most 10 bytes");
    }

    @Test
    void what_is_no_regular_file_is_called_by_its_name_and_not_opened() throws Exception {
        Path pipe = OddFiles.pipe(folder.resolve("pipe"));
        Path linked = Files.createSymbolicLink(folder.resolve("linked"), pipe);
        Path socket = folder.resolve("socket");

        assertThat(trouble(pipe)).isEqualTo("this is a pipe; a regular file, or a link to one");
        assertThat(trouble(linked)).startsWith("this is a pipe; ");
        assertThat(trouble(OddFiles.ZEROS)).startsWith("this is a device; ");
        assertThat(trouble(folder)).isEqualTo("this is a folder; name the file in it");
        try (ServerSocketChannel server = ServerSocketChannel.open(StandardProtocolFamily.UNIX)) {
            server.bind(UnixDomainSocketAddress.of(socket));
            assertThat(trouble(socket)).startsWith("this is a socket; ");
        }
    }

    /** The kernel's own files have a size of 0, whatever they hold. */
    @Test
    void a_file_that_gives_more_than_its_size_says_is_bounded_too() throws IOException {
        Path growing = Path.of("/proc/self/maps");

        assertThat(Files.size(growing)).isZero();
        assertThat(trouble(growing)).startsWith("this file is too large; ");
    }

    @Test
    void a_file_that_is_not_there_or_leads_nowhere_is_told_without_its_name() throws IOException {
        Path circle = folder.resolve("circle");
        Files.createSymbolicLink(circle, circle);

        assertThat(trouble(folder.resolve("none")))
                .isEqualTo("there is no such file; check its name and folder");
        assertThat(trouble(circle)).startsWith("this file cannot be read: Too many levels");
    }
}
