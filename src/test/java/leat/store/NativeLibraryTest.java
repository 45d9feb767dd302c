package leat.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class NativeLibraryTest {

    /** More than any system gives. */
    private static final String GONE = "99999999999";

    @TempDir Path folder;

    private void unpacked(String process) throws IOException {
        Path copies = Files.createDirectories(folder.resolve(process));
        Files.writeString(copies.resolve("sqlite-3-libsqlitejdbc.so"), "native");
    }

    @Test
    void what_a_killed_program_left_goes_and_what_a_living_one_uses_stays() throws IOException {
        String living = Long.toString(ProcessHandle.current().parent().orElseThrow().pid());
        String own = Long.toString(ProcessHandle.current().pid());
        for (String process : List.of(living, own, GONE)) {
            unpacked(process);
        }
        Files.writeString(folder.resolve("sqlite-of-an-older-leat.so"), "native");

        NativeLibrary.sweep(folder);

        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left.map(each -> each.getFileName().toString())).containsExactly(living);
        }
    }
}
