package leat.day;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.List;
import leat.interop.Peer;

/**
 * A script on this computer, which looks its message up with Debian's sqlite3 and writes down what
 * it was given.
 */
final class SirenPart implements Part {

    private static final String WELL = "well";
    private static final String NONE = "";

    private final Path program;
    private final Path away;
    private final Path mode;
    private final Path heard;
    private final Arrivals arrivals;

    SirenPart(Path folder, Path database, Arrivals arrivals) throws IOException {
        this.arrivals = arrivals;
        program = folder.resolve("siren.sh");
        away = folder.resolve("siren.sh.away");
        mode = folder.resolve("siren.mode");
        heard = Files.createFile(folder.resolve("siren.txt"));
        become(WELL);
        Files.writeString(
                program,
                """
                #!/bin/sh
                at=$(date +%%s%%N)
                read mode < %1$s
                [ "$mode" = hung ] && exec sleep 60
                row=$(%2$s -readonly -cmd '.timeout 5000' %3$s \
                    "SELECT json FROM outbox WHERE route = 'siren' AND message_id = '$LEAT_ID'")
                json=$(cat)
                committed=no; same=no
                [ -n "$row" ] && committed=yes
                [ "$row" = "$json" ] && same=yes
                case $mode in
                    refusing) echo "no current"; exit 3;;
                    full) echo "No space left on device" >&2; exit 28;;
                    slow) sleep 0.7;;
                esac
                echo "$at $committed $same $LEAT_ID" >> %4$s
                [ "$mode" = mute ] && exec sleep 60
                [ "$mode" = hoarse ] && { echo "sounded, but the lamp is broken"; exit 4; }
                exit 0
                """
                        .formatted(mode, Peer.require("sqlite3"), database, heard));
        Files.setPosixFilePermissions(program, PosixFilePermissions.fromString("rwxr-xr-x"));
    }

    /** At once for whoever reads it next. */
    private void become(String newMode) throws IOException {
        Path next = mode.resolveSibling("siren.next");
        Files.writeString(next, newMode + "\n");
        Files.move(next, mode, java.nio.file.StandardCopyOption.ATOMIC_MOVE);
    }

    /** Hands over what the script has written down; to be called once, at the end. */
    void report() throws IOException {
        for (String line : Files.readAllLines(heard)) {
            String[] words = line.split(" ", 4);
            arrivals.add(
                    new Arrivals.Arrival(
                            route(),
                            words[3],
                            Long.parseLong(words[0]) / 1_000,
                            words[1].equals("yes"),
                            words[2].equals("yes")));
        }
    }

    @Override
    public String route() {
        return "siren";
    }

    @Override
    public String yaml() {
        return "command: { run: [ '" + program + "' ], timeout: 1.2 s }";
    }

    @Override
    public List<Spell> spells() {
        Duration brief = Duration.ofMillis(1000);
        return List.of(
                new Spell(Ailment.KILLED, brief, "cannot be started"),
                new Spell(Ailment.HUNG, Duration.ofMillis(2600), "not done within 1.2 s"),
                new Spell(Ailment.SLOW, Duration.ofMillis(1600), NONE),
                new Spell(
                        Ailment.REFUSING, brief, "exit code 3; it said: no current", "exit code 4"),
                new Spell(Ailment.FULL, brief, "No space left on device"));
    }

    @Override
    public void begin(Ailment trouble) throws IOException {
        switch (trouble) {
            case KILLED -> kill();
            case HUNG -> become("mute");
            case SLOW -> become("slow");
            case REFUSING -> become("refusing");
            case FULL -> become("full");
            case REFUSING_FOR_GOOD, CERTIFICATE ->
                    throw new IllegalArgumentException("it never does");
        }
    }

    /** What runs already runs to its end. */
    private void kill() throws IOException {
        Files.move(program, away);
        await().dontCatchUncaughtExceptions()
                .until(
                        () ->
                                ProcessHandle.current()
                                        .descendants()
                                        .map(process -> process.info().commandLine().orElse(""))
                                        .noneMatch(words -> words.contains(program.toString())));
    }

    @Override
    public void turn(Ailment trouble) throws IOException {
        switch (trouble) {
            case HUNG -> become("hung");
            case REFUSING -> become("hoarse");
            case KILLED, SLOW, FULL, REFUSING_FOR_GOOD, CERTIFICATE -> {
                // as it is
            }
        }
    }

    @Override
    public void end(Ailment trouble) throws IOException {
        if (trouble == Ailment.KILLED) {
            Files.move(away, program);
        }
        become(WELL);
    }

    @Override
    public void close() {
        // nothing runs on
    }
}
