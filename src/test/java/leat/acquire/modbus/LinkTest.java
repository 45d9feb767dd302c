package leat.acquire.modbus;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.channels.SocketChannel;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import leat.Gear;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** How a connection comes about, seen by whoever polls. */
@Timeout(60)
class LinkTest {

    private static final Duration TIMEOUT = Duration.ofSeconds(30);

    private final List<CompletableFuture<InetAddress>> lookUps = new ArrayList<>();
    private ServerSocket device;
    private Link link;

    @BeforeEach
    void listen() throws Exception {
        device = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        link = new Link("plc", device.getLocalPort(), TIMEOUT, new LookUpsOnly());
    }

    @AfterEach
    void close() throws Exception {
        link.close();
        device.close();
    }

    private final class LookUpsOnly implements Lookout {
        @Override
        public void watch(SocketChannel channel, int operations) {
            assertThat(channel.isBlocking()).isFalse();
        }

        @Override
        public CompletableFuture<InetAddress> lookUp(String host) {
            lookUps.add(new CompletableFuture<>());
            return lookUps.get(lookUps.size() - 1);
        }
    }

    @Test
    void a_name_is_looked_up_for_each_connection_for_it_may_mean_another_address_by_now()
            throws Exception {
        link.open();
        lookUps.get(0).complete(InetAddress.getLoopbackAddress());
        link.progress();
        link.close();

        link.open();

        assertThat(lookUps).hasSize(2);
    }

    @Test
    void a_look_up_that_outlasts_its_time_out_serves_the_next_try() throws Exception {
        link.open();
        link.expire();
        link.open();
        link.expire();
        lookUps.get(0).complete(InetAddress.getLoopbackAddress());

        link.open();
        while (!link.isOpen()) {
            link.progress();
        }

        assertThat(lookUps).hasSize(1);
    }

    @Test
    void connecting_has_a_time_out_of_its_own_after_the_look_up() throws Exception {
        link.open();
        long lookedUpBy = link.expiryNanos();
        lookUps.get(0).complete(InetAddress.getLoopbackAddress());

        link.progress();

        assertThat(link.expiryNanos() - lookedUpBy).isPositive();
    }

    @Test
    @Tag(Gear.THOROUGH)
    void an_address_that_this_computer_cannot_speak_to_is_a_fault_with_what_to_check()
            throws Exception {
        Process withoutIpv6 =
                new ProcessBuilder(
                                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                                "-Djava.net.preferIPv4Stack=true",
                                "-XX:TieredStopAtLevel=1",
                                "-cp",
                                System.getProperty("java.class.path"),
                                ConnectToIpv6.class.getName())
                        .redirectErrorStream(true)
                        .start();

        String said = new String(withoutIpv6.getInputStream().readAllBytes(), UTF_8);

        assertThat(said)
                .startsWith("no connection: this computer has no IPv6")
                .contains("0:0:0:0:0:0:0:1", "check the device's power");
        assertThat(withoutIpv6.waitFor()).isZero();
    }

    static final class ConnectToIpv6 {

        private ConnectToIpv6() {}

        public static void main(String[] none) {
            Lookout lookout =
                    new Lookout() {
                        @Override
                        public void watch(SocketChannel channel, int operations) {}

                        @Override
                        public CompletableFuture<InetAddress> lookUp(String host) {
                            HostNames names = InetAddress::getByName;
                            return names.lookUp(host, Assertions::fail);
                        }
                    };
            try {
                new Link("::1", 502, TIMEOUT, lookout).open();
            } catch (LinkFault fault) {
                System.out.println(fault.words());
            }
        }
    }
}
