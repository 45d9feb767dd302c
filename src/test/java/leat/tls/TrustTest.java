package leat.tls;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.net.ssl.SSLServerSocket;
import javax.net.ssl.SSLSocket;
import leat.Gear;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TrustTest {

    @TempDir Path folder;

    @Tag(Gear.THOROUGH)
    @Test
    void every_signer_of_the_file_is_trusted() throws Exception {
        Certificates old = new Certificates(folder.resolve("old"));
        Certificates next = Certificates.ofAnotherAuthority(folder.resolve("next"));
        Path both = folder.resolve("both.pem");
        Files.writeString(both, Files.readString(old.caFile()) + Files.readString(next.caFile()));

        Trust trust = Trust.read(both);

        assertThat(handshake(trust, old.good())).startsWith("TLS");
        assertThat(handshake(trust, next.good())).startsWith("TLS");
    }

    /** The protocol that both sides agree on. */
    private static String handshake(Trust trust, Certificates.Server server) throws Exception {
        InetAddress here = InetAddress.getByName("127.0.0.1");
        try (SSLServerSocket listening =
                        (SSLServerSocket)
                                server.context()
                                        .getServerSocketFactory()
                                        .createServerSocket(0, 1, here);
                SSLSocket client =
                        (SSLSocket)
                                trust.context()
                                        .getSocketFactory()
                                        .createSocket(here, listening.getLocalPort())) {
            Thread other = new Thread(() -> answer(listening));
            other.start();
            client.startHandshake();
            other.join();
            return client.getSession().getProtocol();
        }
    }

    private static void answer(SSLServerSocket listening) {
        try (SSLSocket taken = (SSLSocket) listening.accept()) {
            taken.startHandshake();
        } catch (IOException e) {
            // the client's handshake says what was wrong
        }
    }
}
