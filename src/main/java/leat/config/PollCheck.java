package leat.config;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import leat.rule.Limit;

/** Finds polls that are too slow for what is judged by them. */
final class PollCheck {

    /** Below 5 Hz a rise is not known to better than a fifth of a second (own model runs). */
    private static final Duration SLOW = Duration.ofMillis(200);

    private PollCheck() {}

    static void check(Connections connections, List<Machine> machines) {
        for (Connection connection : connections.all()) {
            Optional<Duration> poll = poll(connection);
            if (poll.isPresent() && poll.get().compareTo(SLOW) > 0) {
                slow(connection, poll.get(), machines);
            }
        }
    }

    private static void slow(Connection connection, Duration poll, List<Machine> machines) {
        Cursor at = connection.at().below("modbus_tcp", "poll");
        Set<String> blind =
                machines.stream()
                        .filter(m -> reads(m, connection) && poll.toMillis() >= blindMillis(m))
                        .map(Machine::name)
                        .collect(Collectors.toCollection(TreeSet::new));
        String printed = ConnectionReader.POLL.form().print(poll);
        if (blind.isEmpty()) {
            at.doubtful(
                    "polls every " + printed + ": rises are measured that coarsely",
                    "poll every 200 ms or faster; 50 ms is the default");
            return;
        }
        at.wrong(
                "polls every "
                        + printed
                        + ", which limits.signal.blind takes for silence at "
                        + String.join(", ", blind),
                "poll faster than signal.blind, best every 50 ms");
    }

    private static Optional<Duration> poll(Connection connection) {
        return connection
                .settings()
                .filter(s -> s instanceof ConnectionSettings.ModbusTcp)
                .map(s -> ((ConnectionSettings.ModbusTcp) s).poll());
    }

    private static boolean reads(Machine machine, Connection connection) {
        return machine.wired().stream()
                .map(Machine.Wired::settings)
                .anyMatch(
                        c -> c.channel().isPressure() && c.connection().equals(connection.name()));
    }

    private static long blindMillis(Machine machine) {
        return Math.round(machine.limits().value(Limit.SIGNAL_BLIND) * 1e3);
    }
}
