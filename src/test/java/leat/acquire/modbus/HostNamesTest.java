package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicReference;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(60)
class HostNamesTest {

    private final AtomicReference<Thread> asked = new AtomicReference<>();
    private final HostNames names =
            host -> {
                asked.set(Thread.currentThread());
                return InetAddress.getLoopbackAddress();
            };

    @ParameterizedTest
    @ValueSource(strings = {"127.0.0.1", "10.20.130.255", "0.0.0.0", "::1", "[fe80::1]"})
    void an_address_in_numbers_is_known_at_once(String host) {
        CompletableFuture<InetAddress> found = names.lookUp(host, Assertions::fail);

        assertThat(found).isCompleted();
        assertThat(asked.get()).isSameAs(Thread.currentThread());
    }

    @ParameterizedTest
    @ValueSource(strings = {"plc", "10.plc", "1.2.3", "1.2.3.4.5", "1.2.3.256", "1.2.3.4."})
    void anything_else_is_looked_up_on_another_thread(String host) throws Exception {
        CountDownLatch done = new CountDownLatch(1);

        CompletableFuture<InetAddress> found = names.lookUp(host, done::countDown);

        done.await();
        assertThat(found).isCompletedWithValue(InetAddress.getLoopbackAddress());
        assertThat(asked.get()).isNotSameAs(Thread.currentThread());
    }

    @Test
    void a_name_that_nobody_knows_is_told_too() throws Exception {
        CountDownLatch done = new CountDownLatch(1);
        HostNames nobody =
                host -> {
                    throw new UnknownHostException(host);
                };

        CompletableFuture<InetAddress> found = nobody.lookUp("plc", done::countDown);

        done.await();
        Assertions.assertThatThrownBy(found::join)
                .isInstanceOf(CompletionException.class)
                .hasCauseInstanceOf(UnknownHostException.class);
    }

    @Test
    void an_error_ends_the_look_up_too() throws Exception {
        CountDownLatch done = new CountDownLatch(1);
        HostNames broken =
                host -> {
                    throw new StackOverflowError("on purpose");
                };

        CompletableFuture<InetAddress> found = broken.lookUp("plc", done::countDown);

        done.await();
        assertThat(found).isCompletedExceptionally();
    }
}
