package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.rule.Grade;
import leat.signal.PressureUnit;
import leat.store.Message;
import leat.words.Language;
import leat.words.Phrases;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The programs are small scripts on disk; leat itself uses no shell to start them. */
class CommandRouteTest extends RouteContract {

    @TempDir Path folder;

    @Override
    Route open() throws Exception {
        Path log = folder.resolve("arrived.txt");
        Files.createFile(log);
        return route(script("keep", "cat >> " + log + "; echo >> " + log));
    }

    @Override
    List<Integer> arrived() throws IOException {
        return Files.readAllLines(folder.resolve("arrived.txt")).stream()
                .map(line -> Integer.parseInt(line.replaceAll(".*:(\\d+)}", "$1")))
                .toList();
    }

    @Test
    void values_come_by_environment_and_no_other_variable_of_leat_does() throws Exception {
        Path seen = folder.resolve("seen.txt");

        route(script("env", "env > " + seen)).deliver(Changes.message(3));

        List<String> lines = Files.readAllLines(seen);
        assertThat(lines)
                .contains(
                        "LEAT_ID=jet-1.ratio.20260105T060101Z/3",
                        "LEAT_ALARM=jet-1.ratio.20260105T060101Z",
                        "LEAT_NUMBER=3",
                        "LEAT_MACHINE=jet-1",
                        "LEAT_KIND=call",
                        "LEAT_EVENT=raised",
                        "LEAT_GRADE=warning",
                        "LEAT_CAUSE=",
                        "LEAT_CAUSE_WEIGHT=",
                        "LEAT_AT=2026-01-05T06:01:01.250003Z",
                        "LEAT_SHORT=text 3",
                        "LEAT_SUBJECT=subject 3",
                        "LEAT_TEXT=text 3");
        assertThat(lines)
                .allMatch(line -> line.matches("(LEAT_\\w+|PATH|LANG|PWD|SHLVL|_|OLDPWD)=.*"));
    }

    @Test
    void likeliest_cause_comes_by_its_key_with_its_weight() throws Exception {
        Path seen = folder.resolve("seen.txt");
        Diagnosis why =
                Changes.why(
                        Changes.suspect(Cause.WORN_BOOSTER, 0.84, Check.JET_OFF),
                        Changes.suspect(Cause.SET_LOW, 0.12));
        Message message =
                Changes.said(
                        new Wording(Changes.site(Language.GERMAN, PressureUnit.BAR)),
                        new Changed(
                                "jet-1",
                                Changes.raised(Changes.weakBoost(Grade.WARNING, "")),
                                Optional.of(why)));

        route(script("env", "env > " + seen)).deliver(message);

        assertThat(Files.readAllLines(seen))
                .contains("LEAT_CAUSE=worn-booster", "LEAT_CAUSE_WEIGHT=0.84");
    }

    @Test
    void arguments_are_passed_as_they_are_written() throws Exception {
        Path seen = folder.resolve("seen.txt");
        String program = script("args", "for a in \"$@\"; do echo \"$a\" >> " + seen + "; done");

        route(program, "$HOME", "a b", "; touch " + folder.resolve("touched"), "*")
                .deliver(Changes.message(1));

        assertThat(Files.readAllLines(seen))
                .containsExactly("$HOME", "a b", "; touch " + folder.resolve("touched"), "*");
        assertThat(folder.resolve("touched")).doesNotExist();
    }

    @Test
    void hostile_text_stays_text() throws Exception {
        Path seen = folder.resolve("seen.txt");
        String program = script("say", "printf '%s' \"$LEAT_SUBJECT$LEAT_TEXT$LEAT_ID\" > " + seen);

        DeliveryResult result = route(program).deliver(Hostile.message());

        assertThat(result).isEqualTo(DeliveryResult.DELIVERED);
        assertThat(Files.readString(seen).replace("\n", "").codePoints())
                .noneMatch(Character::isISOControl)
                .noneMatch(point -> point == 0x202e || point == 0x2028);
        assertThat(Files.readString(seen)).contains("$(reboot);", "\\r\\nBcc:");
    }

    @Test
    void one_megabyte_of_text_is_cut_in_the_environment_and_whole_on_standard_input()
            throws Exception {
        Path seen = folder.resolve("seen.txt");
        String large = "\u00e4".repeat(1 << 20);

        DeliveryResult result =
                route(script("count", "wc -c > " + seen))
                        .deliver(Hostile.message(large, large, "\"" + large + "\""));

        assertThat(result).isEqualTo(DeliveryResult.DELIVERED);
        assertThat(Files.readString(seen).trim()).isEqualTo(Integer.toString((2 << 20) + 2));
    }

    @Test
    void text_that_was_cut_in_the_environment_says_so() throws Exception {
        Path seen = folder.resolve("seen.txt");
        String program = script("say", "printf '%s' \"$LEAT_TEXT\" | tail -n 1 > " + seen);

        route(program).deliver(Hostile.message("subject", "x".repeat(30_001), "{}"));
        String ofLong = Files.readString(seen);
        route(program).deliver(Hostile.message("subject", "x".repeat(30_000), "{}"));

        assertThat(ofLong.trim())
                .isEqualTo("(cut: all of it stands in the JSON on standard input)");
        assertThat(Files.readString(seen).trim()).isEqualTo("x".repeat(30_000));
    }

    @Test
    void program_that_reads_nothing_and_says_a_lot_is_no_hang() throws Exception {
        String program = script("chatter", "head -c 1000000 /dev/zero | tr '\\0' 'x'");

        DeliveryResult result =
                route(program).deliver(Hostile.message("\"" + "y".repeat(1 << 20) + "\""));

        assertThat(result).isEqualTo(DeliveryResult.DELIVERED);
    }

    @Test
    void other_exit_code_is_not_now_with_the_first_words_made_harmless() throws Exception {
        String program = script("fail", "printf 'siren \\033[2J\\nbroken'; exit 3");

        DeliveryResult result = route(program).deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason())
                .isEqualTo(program + ": exit code 3; it said: siren \\u{1b}[2J\\nbroken");
    }

    @Test
    void program_that_hangs_is_ended_with_what_it_has_started() throws Exception {
        Path pids = folder.resolve("pids.txt");
        String program = script("hang", "sleep 600 & echo $! $$ > " + pids + "; wait");

        DeliveryResult result = route(program).deliver(Changes.message(1));

        assertThat(result.reason()).contains("not done within 1.5 s, and ended");
        List<Long> started =
                Arrays.stream(Files.readString(pids).trim().split(" ")).map(Long::valueOf).toList();
        await().untilAsserted(
                        () ->
                                assertThat(started)
                                        .noneMatch(
                                                pid ->
                                                        ProcessHandle.of(pid)
                                                                .filter(ProcessHandle::isAlive)
                                                                .isPresent()));
    }

    @Test
    void interrupt_ends_the_program_and_is_kept() throws Exception {
        Path begun = folder.resolve("begun.txt");
        Interrupted waiting =
                Interrupted.whileDelivering(
                        route(script("wait", "touch " + begun + "; sleep 600")));
        await().until(() -> Files.exists(begun));

        DeliveryResult result = waiting.interrupt();

        assertThat(result.reason()).contains("interrupted");
        assertThat(waiting.flagWasKept()).isTrue();
    }

    @Test
    void program_that_is_not_there_is_a_reason() {
        DeliveryResult result =
                route(folder.resolve("nowhere").toString()).deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason()).contains("nowhere: cannot be started; check that it is there");
    }

    private String script(String name, String lines) throws IOException {
        Path file = folder.resolve(name + ".sh");
        Files.writeString(file, "#!/bin/sh\n" + lines + "\n");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rwx------"));
        return file.toString();
    }

    private static Route route(String program, String... arguments) {
        List<String> run = new ArrayList<>(List.of(program));
        run.addAll(List.of(arguments));
        return new CommandRoute(
                new RouteSettings.Command(
                        "hall", RouteScope.from(Grade.ADVISORY), run, Duration.ofMillis(1500)),
                Phrases.in(Language.ENGLISH));
    }
}
