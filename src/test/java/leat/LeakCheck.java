package leat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.awaitility.core.ConditionTimeoutException;
import org.junit.jupiter.api.extension.AfterAllCallback;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.ExtensionContext.Namespace;

/**
 * Fails a test class that leaves a thread or a descriptor behind, and names it. It is registered
 * for every class by way of {@code META-INF/services}; a class that leaves nothing pays a
 * millisecond. What ends late is waited for. Test classes must run one after another: what two
 * leave at the same time could not be told apart.
 */
public final class LeakCheck implements BeforeAllCallback, AfterAllCallback {

    private static final Namespace OURS = Namespace.create(LeakCheck.class);

    /** Longer than any close in leat takes, and than a library takes to end its threads. */
    private static final Duration LATE = Duration.ofSeconds(15);

    private record Before(LiveThreads threads, Descriptors descriptors) {}

    @Override
    public void beforeAll(ExtensionContext context) throws IOException {
        openWhatTheRuntimeOpensOnce();
        context.getStore(OURS).put(Before.class, new Before(LiveThreads.now(), Descriptors.now()));
    }

    /** The first socket that is closed makes the runtime open one that it keeps. */
    private static void openWhatTheRuntimeOpensOnce() throws IOException {
        new ServerSocket(0, 1, InetAddress.getLoopbackAddress()).close();
    }

    @Override
    public void afterAll(ExtensionContext context) {
        Before before = context.getStore(OURS).get(Before.class, Before.class);
        long mayLeave =
                Optional.ofNullable(context.getRequiredTestClass().getAnnotation(MayLeave.class))
                        .map(MayLeave::sockets)
                        .orElse(0);
        if (!leftSince(before, mayLeave).isEmpty()) {
            try {
                await().atMost(LATE)
                        .pollInterval(Duration.ofMillis(150))
                        .pollInSameThread()
                        .until(() -> leftOnceCollected(before, mayLeave).isEmpty());
            } catch (ConditionTimeoutException e) {
                assertThat(leftSince(before, mayLeave))
                        .as("%s has left behind", context.getRequiredTestClass().getName())
                        .isEmpty();
            }
        }
    }

    /** An HttpClient of Java 17 cannot be closed: its connections go when it is collected. */
    private static List<String> leftOnceCollected(Before before, long mayLeave) {
        System.gc();
        return leftSince(before, mayLeave);
    }

    private static List<String> leftSince(Before before, long mayLeave) {
        List<String> left = new ArrayList<>(LiveThreads.now().since(before.threads()));
        left.addAll(Descriptors.now().since(before.descriptors()));
        if (left.stream().filter(LeakCheck::isSocket).count() <= mayLeave) {
            left.removeIf(LeakCheck::isSocket);
        }
        return left;
    }

    private static boolean isSocket(String left) {
        return left.startsWith("open socket:");
    }
}
