package leat.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.wire.StateBytes;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Every sequence of up to eight inputs, with a ledger of its own beside the book: which condition
 * holds, what somebody still owes an acknowledgement for, and what holds the alarm back. Sequences
 * that lead to the same book and ledger are followed once; the book is the whole state but for
 * numbers that only label.
 */
class AlarmSearchTest {

    private static final int LENGTH = 8;
    private static final long AT = 1_767_592_800_000_000L;
    private static final long SHELF = 3_600_000_000L;

    private enum World {
        /** A starved inlet latches; nothing chatters. */
        LATCHING(390, Map.of(Limit.INLET_LATCH, 1.0, Limit.ALARM_CHATTER_COUNT, 50.0)),
        /** What comes twice chatters, and latches. */
        CHATTERING(390, Map.of(Limit.INLET_LATCH, 1.0, Limit.ALARM_CHATTER_COUNT, 2.0)),
        /** As it is by default. */
        DEFAULT(390, Map.of());

        private final int least;
        private final Limits limits;

        World(int least, Map<Limit, Double> changed) {
            this.least = least;
            limits = Limits.with(changed);
        }
    }

    private enum In {
        ADVISORY,
        CRITICAL,
        CLEAR,
        ACK,
        RESET,
        SHELVE,
        UNSHELVE,
        SERVICE_ON,
        SERVICE_OFF,
        REMOVE,
        RESTORE,
        AN_HOUR_PASSES
    }

    private record Node(byte[] book, byte[] service, Ledger ledger) {}

    private final List<AlarmChange> changes = new ArrayList<>();
    private Limits limits = Limits.DEFAULTS;

    @ParameterizedTest
    @EnumSource(World.class)
    void no_sequence_of_eight_inputs_loses_an_alarm_or_reaches_a_forbidden_state(World world) {
        limits = world.limits;
        Set<List<Object>> seen = new HashSet<>();
        List<Node> nodes = List.of(start());
        for (int length = 1; length <= LENGTH; length++) {
            List<Node> next = new ArrayList<>();
            for (Node node : nodes) {
                for (In in : In.values()) {
                    step(node, in, seen).ifPresent(next::add);
                }
            }
            nodes = next;
        }

        assertThat(seen.size()).as("different books reached").isGreaterThan(world.least);
    }

    private Node start() {
        AlarmBook book = book();
        return new Node(bytes(book), bytes(service(book)), Ledger.EMPTY);
    }

    private AlarmBook book() {
        return new AlarmBook("jet-1", limits, changes::add);
    }

    private Service service(AlarmBook book) {
        return new Service(limits, book, change -> {});
    }

    private Optional<Node> step(Node from, In in, Set<List<Object>> seen) {
        AlarmBook book = book();
        StateBytes.into(1, from.book(), book::keep);
        Service service = service(book);
        StateBytes.into(1, from.service(), service::keep);
        changes.clear();
        boolean known = known(book);
        boolean chatters = known && alarm(book).chatter().isOn();
        Ledger.Entry entry = from.ledger().after(entry(in), known, chatters, latches(limits));

        boolean refused = feed(book, service, in, known ? alarm(book).id() : "none");

        assertThat(refused)
                .as("%s after %s: refused", in, from.ledger())
                .isEqualTo(entry.refused());
        check(book, entry.ledger(), in + " after " + from.ledger() + ": " + changes);
        return seen.add(List.of(essence(book), entry.ledger(), service.isOn()))
                ? Optional.of(new Node(bytes(book), bytes(service), entry.ledger()))
                : Optional.empty();
    }

    private static boolean latches(Limits limits) {
        return limits.isSet(Limit.INLET_LATCH);
    }

    private static Ledger.Input entry(In in) {
        return Ledger.Input.valueOf(in.name());
    }

    private void check(AlarmBook book, Ledger ledger, String trace) {
        assertThat(changes).as(trace).allSatisfy(AlarmSearchTest::isWellFormed);
        if (!known(book)) {
            assertThat(ledger.owed() || ledger.visible().isPresent()).as(trace).isFalse();
            return;
        }
        Life life = alarm(book).life();
        assertThat(life.own().isActive()).as(trace).isEqualTo(ledger.visible().isPresent());
        assertThat(life.own().needsAcknowledging()).as(trace).isEqualTo(ledger.owed());
        assertThat(isLatched(life.own()))
                .as(trace)
                .isEqualTo(ledger.latched() && ledger.visible().isEmpty());
        assertThat(life.has(Hold.SHELVED)).as(trace).isEqualTo(ledger.shelf().isPresent());
        assertThat(life.has(Hold.OUT_OF_SERVICE)).as(trace).isEqualTo(ledger.removed());
        assertThat(
                        life.has(Hold.SUPPRESSED)
                                || life.own() == AlarmState.NORMAL
                                || !ledger.service())
                .as(trace)
                .isTrue();
        assertThat(life.has(Hold.SUPPRESSED) && !ledger.service()).as(trace).isFalse();
    }

    private static void isWellFormed(AlarmChange change) {
        assertThat(change.isCall() && change.isSilent()).isFalse();
        assertThat(change.isCall() && change.to().isHeld()).isFalse();
        assertThat(change.to().isHeld() || change.to() == change.notes().own()).isTrue();
    }

    private static boolean isLatched(AlarmState state) {
        return state == AlarmState.LATCHED_UNACKNOWLEDGED
                || state == AlarmState.LATCHED_ACKNOWLEDGED;
    }

    private static boolean known(AlarmBook book) {
        return !book.alarms().isEmpty();
    }

    private static Alarm alarm(AlarmBook book) {
        return book.alarms().values().iterator().next();
    }

    private static boolean feed(AlarmBook book, Service service, In in, String id) {
        return switch (in) {
            case ADVISORY -> found(book, Grade.ADVISORY);
            case CRITICAL -> found(book, Grade.CRITICAL);
            case CLEAR -> {
                Figure psi = Figure.of(42);
                book.cleared(Rule.INLET, Channel.INLET, AT, psi, psi, List.of());
                yield false;
            }
            case ACK -> refused(book, new Instruction(AT, "kim", new Order.Acknowledge(id)));
            case RESET -> refused(book, new Instruction(AT, "kim", new Order.Reset(id)));
            case SHELVE ->
                    refused(
                            book,
                            new Instruction(AT, "kim", new Order.Shelve(id, AT + SHELF, "w")));
            case UNSHELVE -> refused(book, new Instruction(AT, "kim", new Order.Unshelve(id)));
            case REMOVE -> refused(book, new Instruction(AT, "kim", new Order.Remove(id, "w")));
            case RESTORE -> refused(book, new Instruction(AT, "kim", new Order.Restore(id)));
            case SERVICE_ON -> {
                service.begin(AT, "kim", "");
                yield false;
            }
            case SERVICE_OFF -> service.end(AT, "kim", "").isPresent();
            case AN_HOUR_PASSES -> {
                book.tick(AT + SHELF);
                yield false;
            }
        };
    }

    private static boolean found(AlarmBook book, Grade grade) {
        book.found(
                new Finding(
                        Rule.INLET,
                        Channel.INLET,
                        grade,
                        AT,
                        AT,
                        Quantity.PRESSURE_PSI,
                        1,
                        5,
                        Sense.AT_LEAST,
                        Figure.of(1),
                        Figure.of(1),
                        List.of()));
        return false;
    }

    private static boolean refused(AlarmBook book, Instruction instruction) {
        return book.follow(instruction).isPresent();
    }

    /** All of the book but labels: ids, revisions, and counts beyond the second. */
    private static List<Object> essence(AlarmBook book) {
        if (!known(book)) {
            return List.of();
        }
        Alarm a = alarm(book);
        return List.of(a.life(), a.finding(), a.gravest(), a.latching(), a.shelf(), a.chatter());
    }

    private static byte[] bytes(AlarmBook book) {
        return StateBytes.of(1, book::keep);
    }

    private static byte[] bytes(Service service) {
        return StateBytes.of(1, service::keep);
    }
}
