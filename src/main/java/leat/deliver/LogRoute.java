package leat.deliver;

import static java.util.Objects.requireNonNull;

import leat.rule.Grade;
import leat.store.Message;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The program's own log, under the name {@code leat.message}: CRITICAL as error, WARNING as warn,
 * everything else as info. Stateless.
 */
public final class LogRoute implements Route {

    private static final Logger MESSAGES = LoggerFactory.getLogger("leat.message");

    private final String name;

    public LogRoute(String name) {
        this.name = requireNonNull(name, "name");
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public void start(Runnable reachable) {
        // always reachable
    }

    @Override
    public DeliveryResult deliver(Message message) {
        boolean calls = message.kind() != Message.Purpose.NEWS;
        if (calls && message.grade() == Grade.CRITICAL) {
            MESSAGES.error("{}", message.text());
        } else if (calls && message.grade() == Grade.WARNING) {
            MESSAGES.warn("{}", message.text());
        } else {
            MESSAGES.info("{}", message.text());
        }
        return DeliveryResult.DELIVERED;
    }

    @Override
    public void close() {
        // the log belongs to the program
    }
}
