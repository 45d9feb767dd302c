package leat;

import java.time.Duration;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;

/**
 * How a test waits for a condition, unless it says otherwise: it looks fifty times a second, for
 * most come true within milliseconds, and long enough that a busy computer decides nothing.
 * Registered for all tests by its name under {@code META-INF/services}.
 */
public final class Looks implements BeforeAllCallback {

    private static final Duration OFTEN = Duration.ofMillis(20);
    private static final Duration LONG = Duration.ofSeconds(25);

    @Override
    public void beforeAll(ExtensionContext context) {
        Awaitility.setDefaultPollDelay(Duration.ZERO);
        Awaitility.setDefaultPollInterval(OFTEN);
        Awaitility.setDefaultTimeout(LONG);
    }
}
