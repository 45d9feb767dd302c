package leat.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import leat.rule.Grade;
import leat.store.Run;
import leat.store.StoreReader;

/**
 * Looks at what a killed daemon left behind: where between finding and delivery the kill fell, and
 * whether store and receivers agree. Confined to the test's thread.
 */
final class Inquest {

    private static final long SECOND_MICROS = 1_000_000;
    private static final int MANY = 1_000_000;

    /** What happens to a chattering alarm and is told to nobody. */
    private static final Set<String> SILENT = Set.of("repeated", "settled");

    /** How the id of a call goes on that is made once the alarm that it was told with is gone. */
    private static final String ALONE = "/alone/1";

    /** That channels which fell silent together are read again. */
    private static final String READ_AGAIN = "/read-again/";

    /**
     * People are told of these a moment later, together, or not at all if they are back by then.
     */
    private static final String SILENCE = ".signal-missing.";

    private final Path wal;
    private final Ledger ledger;
    private final Receivers receivers;
    private List<Ledger.Owed> owed = List.of();
    private Map<String, Set<String>> heard = Map.of();

    Inquest(Path database, Ledger ledger, Receivers receivers) {
        this.wal = database.resolveSibling(database.getFileName() + "-wal");
        this.ledger = ledger;
        this.receivers = receivers;
    }

    /**
     * To be called when the process is dead and nobody has touched its files yet.
     *
     * @see Kill
     */
    Kill examine(
            int round,
            Kill.Aim aim,
            Duration after,
            long atMicros,
            long deadMicros,
            boolean deskAway,
            boolean watching)
            throws IOException, InterruptedException {
        int openPages = WalTail.of(wal).pages();
        receivers.settle();
        look();
        return new Kill(
                round,
                aim,
                after,
                atMicros,
                deadMicros,
                deskAway,
                watching,
                isSecondOpen(atMicros),
                openPages,
                waiting().filter(message -> !isHeard(message)).count(),
                waiting().filter(this::isHeard).count(),
                split(),
                receivers.halfTold().size());
    }

    /** Takes note of store and receivers; nothing that was once owed may be gone. */
    private void look() {
        List<Ledger.Owed> before = owed;
        owed = ledger.owed();
        assertThat(owed).hasSizeGreaterThanOrEqualTo(before.size());
        for (int i = 0; i < before.size(); i++) {
            assertThat(owed.get(i)).isIn(before.get(i), before.get(i).marked());
        }
        heard = new HashMap<>();
        Receivers.ROUTES.forEach(route -> heard.put(route, receivers.heard(route)));
    }

    private boolean isSecondOpen(long atMicros) {
        List<Run> runs = ledger.runs();
        long second = atMicros - atMicros % SECOND_MICROS;
        return second > runs.get(runs.size() - 1).startedMicros()
                && ledger.lastTickMicros() < second;
    }

    /** Messages to the receivers that are owed by themselves and not marked as delivered. */
    private Stream<Ledger.Owed> waiting() {
        return owed.stream().filter(message -> message.isDue() && isAudible(message));
    }

    private static boolean isAudible(Ledger.Owed message) {
        return Receivers.ROUTES.contains(message.route());
    }

    /** At the broker that is as a state and as an event. */
    private boolean isToldToTheEnd(Ledger.Owed message, Set<String> half) {
        return isHeard(message) && !(message.route().equals("hall") && half.contains(message.id()));
    }

    private boolean isHeard(Ledger.Owed message) {
        return heard.get(message.route()).contains(message.id());
    }

    /** Messages that wait and that one receiver has heard and the other has not. */
    private long split() {
        return waiting()
                .filter(message -> !isHeard(message))
                .filter(message -> heard.values().stream().anyMatch(h -> h.contains(message.id())))
                .count();
    }

    /** Number of the newest message that the store was last seen to hold; 0 when there is none. */
    long newest() {
        return owed.isEmpty() ? 0 : owed.get(owed.size() - 1).number();
    }

    /**
     * Everything that the store holds was delivered or waits, and nothing was told that it does not
     * hold.
     */
    void assertNothingIsAmiss(String when) {
        look();
        assertThat(receivers.early()).as(when + ": told before it was committed").isEmpty();
        for (String route : Receivers.ROUTES) {
            assertThat(without(List.copyOf(heard.get(route)), ids(to(route))))
                    .as(when + ": told to " + route + " and not in the store")
                    .isEmpty();
        }
        Set<String> half = receivers.halfTold();
        assertThat(
                        owed.stream()
                                .filter(message -> isAudible(message) && message.delivered())
                                .filter(message -> !isToldToTheEnd(message, half))
                                .map(message -> message.route() + " " + message.id()))
                .as(when + ": marked as delivered and not heard")
                .isEmpty();
        assertWhatIsNotMarkedWaits(when);
        assertWhatIsFoldedIsToldOrCollected(when);
        assertEveryAlarmIsOwed(when);
    }

    /**
     * More than {@code at_most} messages in ten minutes, which many kills make, are told by one.
     * Only those of the window that is still open may have none yet.
     */
    private void assertWhatIsFoldedIsToldOrCollected(String when) {
        for (String route : Receivers.ROUTES) {
            List<String> told = ids(to(route));
            Map<String, Set<String>> open = new HashMap<>();
            for (Ledger.Owed message : to(route)) {
                if (message.isFolded()
                        && !message.foldedInto().contains(READ_AGAIN)
                        && !told.contains(message.foldedInto())) {
                    String machine = message.id().substring(0, message.id().indexOf('.'));
                    open.computeIfAbsent(machine, m -> new HashSet<>()).add(message.foldedInto());
                }
            }
            assertThat(open.values())
                    .as(when + ": windows of " + route + " that nobody tells")
                    .allMatch(windows -> windows.size() == 1);
        }
    }

    private void assertWhatIsNotMarkedWaits(String when) {
        try (StoreReader reader = ledger.reader()) {
            for (String route : Receivers.ROUTES) {
                assertSame(
                        when + ": waits for " + route,
                        reader.due(route, 0, MANY).stream().map(due -> due.message().id()).toList(),
                        ids(waiting().filter(o -> o.route().equals(route)).toList()));
            }
        }
    }

    /**
     * Every change of an alarm that is told at all is owed to whom it concerns, once, and nothing
     * else is but later calls about such a change.
     */
    private void assertEveryAlarmIsOwed(String when) {
        for (String route : Receivers.ROUTES) {
            assertLaterCallsFollowTheirChange(when, ids(to(route)));
        }
        for (String machine : ledger.machines()) {
            List<Ledger.Event> events =
                    ledger.events(machine).stream()
                            .filter(event -> !SILENT.contains(event.event()))
                            .toList();
            List<String> all = events.stream().map(Ledger.Event::id).toList();
            assertSame(when + ": owed to hall", owedIds("hall", machine), all);
            List<String> desk = owedIds("desk", machine);
            assertThat(without(desk, all)).as(when + ": owed to desk, too much").isEmpty();
            assertSame(when + ": owed to desk", withoutSilence(desk), withoutSilence(all));
            assertSame(when + ": owed to log", owedIds("log", machine), forLog(events));
        }
    }

    /** What was told with another alarm of its cause is called by itself when that one has gone. */
    private static void assertLaterCallsFollowTheirChange(String when, List<String> owed) {
        Set<String> before = new HashSet<>();
        for (String id : owed) {
            assertThat(before.add(id)).as(when + ": owed twice: " + id).isTrue();
            if (id.endsWith(ALONE)) {
                assertThat(before)
                        .as(when + ": called alone without a change: " + id)
                        .contains(id.substring(0, id.length() - ALONE.length()));
            }
        }
    }

    /** WARNING and above, and of what it was told of also how it goes on until it is over. */
    private static List<String> forLog(List<Ledger.Event> events) {
        Set<String> told = new HashSet<>();
        List<String> ids = new ArrayList<>();
        for (Ledger.Event event : events) {
            if (event.grade().isAtLeast(Grade.WARNING)) {
                told.add(event.alarmId());
            }
            if (told.contains(event.alarmId())) {
                ids.add(event.id());
            }
            if (event.isOver()) {
                told.remove(event.alarmId());
            }
        }
        return ids;
    }

    /** A failure names what differs: the lists are long. */
    static void assertSame(String what, List<String> actual, List<String> expected) {
        if (!actual.equals(expected)) {
            assertThat(without(expected, actual)).as(what + ": missing").isEmpty();
            assertThat(without(actual, expected)).as(what + ": too much").isEmpty();
            assertThat(actual).as(what + ": not in this order").isEqualTo(expected);
        }
    }

    private static List<String> without(List<String> ids, List<String> others) {
        List<String> rest = new ArrayList<>(ids);
        rest.removeAll(new HashSet<>(others));
        return rest;
    }

    private static List<String> withoutSilence(List<String> ids) {
        return ids.stream().filter(id -> !id.contains(SILENCE)).toList();
    }

    private List<String> owedIds(String route, String machine) {
        return ids(to(route).stream().filter(Ledger.Owed::isOfAnAlarm).toList()).stream()
                .filter(id -> id.startsWith(machine + "."))
                .filter(id -> !id.endsWith(ALONE) && !id.contains(READ_AGAIN))
                .toList();
    }

    private List<Ledger.Owed> to(String route) {
        return owed.stream().filter(message -> message.route().equals(route)).toList();
    }

    private static List<String> ids(List<Ledger.Owed> messages) {
        return messages.stream().map(Ledger.Owed::id).toList();
    }
}
