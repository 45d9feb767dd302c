package leat.system;

import static java.nio.file.attribute.PosixFilePermissions.fromString;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import leat.Gear;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** Another user of the computer looks into the store of a leat that names the user's group. */
@Tag(Gear.THOROUGH)
@EnabledOnOs(OS.LINUX)
@Timeout(180)
class GroupLooksTest {

    /** There on every Linux, as 1 and "daemon". */
    private static final String GROUP = "1";

    @TempDir Path folder;

    private Cabinet cabinet;
    private String program;

    @BeforeEach
    void start_the_field_device() throws IOException {
        assumeTrue(System.getProperty("user.name").equals("root"), "only root runs as another");
        Files.setPosixFilePermissions(folder, fromString("rwxr-xr-x"));
        program = copied(LeatProcess.programOnly());
        cabinet = new Cabinet();
        Files.writeString(
                folder.resolve("site.yaml"),
                QuickSite.yaml(cabinet.port(), "")
                        .replace("folder: ./data", "folder: ./data, group: daemon"));
    }

    @AfterEach
    void close_the_field_device() {
        if (cabinet != null) {
            cabinet.close();
        }
    }

    /** Where another user can read it. */
    private String copied(String program) throws IOException {
        List<String> copies = new ArrayList<>();
        for (String entry : program.split(File.pathSeparator)) {
            Path from = Path.of(entry);
            Path to = folder.resolve("lib").resolve(copies.size() + "-" + from.getFileName());
            try (Stream<Path> all = Files.walk(from)) {
                for (Path each : all.toList()) {
                    Path copy = to.resolve(from.relativize(each).toString()).normalize();
                    Files.createDirectories(copy.getParent());
                    if (!Files.isDirectory(each)) {
                        Files.copy(each, copy);
                    }
                }
            }
            copies.add(to.toString());
        }
        return String.join(File.pathSeparator, copies);
    }

    private record Done(int code, String said) {}

    private Done other(List<String> groups, String... words) throws Exception {
        List<String> command = new ArrayList<>(List.of("setpriv", "--reuid", "65534"));
        command.addAll(List.of("--regid", "65534", "--inh-caps=-all"));
        command.addAll(groups);
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(List.of("-cp", program, "leat.cli.Main"));
        command.addAll(List.of(words));
        Process process =
                new ProcessBuilder(command)
                        .directory(folder.toFile())
                        .redirectErrorStream(true)
                        .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        return new Done(process.waitFor(), said);
    }

    private void assertMembersLookAndNobodyElse() throws Exception {
        Done member = other(List.of("--groups", GROUP), "startups");
        Done acts = other(List.of("--groups", GROUP), "journal", "jet-1", "x");
        Done stranger = other(List.of("--clear-groups"), "startups");

        assertThat(member.code).as(member.said).isZero();
        assertThat(acts.code).as(acts.said).isEqualTo(1);
        assertThat(acts.said).contains("leat's own user");
        assertThat(stranger.code).as(stranger.said).isEqualTo(1);
        assertThat(stranger.said).contains("this user may not look into its folder");
    }

    @Test
    void a_member_looks_while_leat_runs_after_a_kill_and_after_an_orderly_end() throws Exception {
        try (LeatProcess leat = LeatProcess.watching(folder)) {
            assertMembersLookAndNobodyElse();
            leat.kill();
        }
        assertMembersLookAndNobodyElse();
        try (LeatProcess leat = LeatProcess.watching(folder)) {
            leat.terminate();
        }
        assertMembersLookAndNobodyElse();
        try (LeatProcess leat = LeatProcess.watching(folder)) {
            assertThat(leat.log()).doesNotContain("WARN");
        }
    }

    @Test
    void the_library_of_a_killed_leat_goes_with_the_next_start() throws Exception {
        try (LeatProcess leat = LeatProcess.watching(folder)) {
            leat.kill();
        }
        try (LeatProcess leat = LeatProcess.watching(folder);
                Stream<Path> copies = Files.list(folder.resolve("data/native"))) {
            assertThat(copies.map(each -> each.getFileName().toString()))
                    .containsExactly(Long.toString(leat.pid()));
        }
    }
}
