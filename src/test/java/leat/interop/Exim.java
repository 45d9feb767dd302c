package leat.interop;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import leat.tls.Certificates;
import org.awaitility.Awaitility;
import org.opentest4j.TestAbortedException;

/**
 * Debian's mail server (exim4-daemon-light) as a process of its own on free ports of 127.0.0.1,
 * with a configuration of its own and nothing of the system's. It offers STARTTLS on one port and
 * TLS from the first byte on the other, lets nobody in without the password, and keeps what it has
 * taken in its spool. It starts for root only.
 */
public final class Exim implements AutoCloseable {

    private final Path folder;
    private final String user;
    private final String password;
    private final int startTlsPort = FreePort.find();
    private final int tlsPort = FreePort.find();
    private Optional<Process> server = Optional.empty();

    /** Skips the test where the program is missing. */
    public Exim(Path parent, String user, String password) throws IOException {
        requireIt();
        this.folder = Files.createTempDirectory(parent, "exim");
        this.user = user;
        this.password = password;
        // exim gives up root, where it has it, and must still get at its spool
        for (Path path = folder; !path.equals(path.getRoot()) && isOurs(path); ) {
            Files.setPosixFilePermissions(path, PosixFilePermissions.fromString("rwxrwxrwx"));
            path = path.getParent();
        }
    }

    /** Where the program is missing the test is skipped or fails; without root it is skipped. */
    public static void requireIt() {
        Peer.require("exim4");
        if (!System.getProperty("user.name").equals("root")) {
            throw new TestAbortedException("exim4 serves only root: interop test skipped");
        }
    }

    private static boolean isOurs(Path path) {
        return path.startsWith(Path.of(System.getProperty("java.io.tmpdir")))
                && !path.equals(Path.of(System.getProperty("java.io.tmpdir")));
    }

    public int startTlsPort() {
        return startTlsPort;
    }

    public int tlsPort() {
        return tlsPort;
    }

    public void start(Certificates.Server shown) throws IOException {
        Path certificate = readable(shown.certificate());
        Path key = readable(shown.key());
        Path file = folder.resolve("exim.conf");
        Files.writeString(
                file,
                """
                spool_directory = %1$s/spool
                log_file_path = %1$s/%%slog
                pid_file_path = %1$s/pid
                local_interfaces = <; [127.0.0.1]:%2$d ; [127.0.0.1]:%3$d
                tls_on_connect_ports = %3$d
                tls_advertise_hosts = *
                tls_certificate = %4$s
                tls_privatekey = %5$s
                auth_advertise_hosts = ${if def:tls_in_cipher {*}{}}
                primary_hostname = boatyard.example.org
                host_lookup =
                rfc1413_hosts =
                queue_only = true
                smtp_accept_max = 50
                acl_smtp_rcpt = rcpt
                never_users =
                keep_environment =

                begin acl
                rcpt:
                  deny  local_parts = nobody
                        message = no such person here
                  defer local_parts = full
                        message = mailbox full
                  accept authenticated = *
                  deny  message = log in first

                begin authenticators
                plain:
                  driver = plaintext
                  public_name = PLAIN
                  server_prompts = :
                  server_condition = ${if and{{eq{$auth2}{%6$s}}{eq{$auth3}{%7$s}}}}
                  server_set_id = $auth2
                """
                        .formatted(
                                folder, startTlsPort, tlsPort, certificate, key, user, password));
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
        server =
                Optional.of(
                        new ProcessBuilder(
                                        Peer.require("exim4").toString(),
                                        "-C",
                                        file.toString(),
                                        "-bdf")
                                .redirectErrorStream(true)
                                .redirectOutput(folder.resolve("said.txt").toFile())
                                .start());
        Awaitility.await()
                .atMost(Duration.ofSeconds(10))
                .until(() -> answers(startTlsPort) && answers(tlsPort));
    }

    private Path readable(Path file) throws IOException {
        Path copy = folder.resolve(file.getFileName());
        Files.write(copy, Files.readAllBytes(file));
        Files.setPosixFilePermissions(copy, PosixFilePermissions.fromString("rw-r--r--"));
        return copy;
    }

    /** Headers of the messages that it has taken, as they stand in its spool, oldest first. */
    public List<String> taken() throws IOException {
        Path input = folder.resolve("spool/input");
        if (!Files.isDirectory(input)) {
            return List.of();
        }
        try (Stream<Path> files = Files.walk(input)) {
            return files.filter(file -> file.toString().endsWith("-H"))
                    .sorted()
                    .map(Exim::read)
                    .toList();
        }
    }

    private static String read(Path file) {
        try {
            return Files.readString(file, UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** As a power cut would. */
    public void kill() throws InterruptedException {
        Process process = server.orElseThrow();
        process.descendants().forEach(ProcessHandle::destroyForcibly);
        process.destroyForcibly();
        process.waitFor(10, TimeUnit.SECONDS);
        server = Optional.empty();
    }

    @Override
    public void close() {
        try {
            if (server.isPresent()) {
                kill();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static boolean answers(int port) {
        try (Socket socket = new Socket()) {
            socket.connect(new InetSocketAddress("127.0.0.1", port), 200);
            return true;
        } catch (IOException e) {
            return false;
        }
    }
}
