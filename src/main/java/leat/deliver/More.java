package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.store.Message;

/**
 * Messages of one machine that a route does not get one by one, because it got too many. Immutable.
 *
 * @param machine name of the machine
 * @param parts those that are not told themselves, in their order, at least one
 */
record More(String machine, List<Part> parts) implements About {

    /**
     * A message that another one stands for.
     *
     * @param id its id
     * @param grade how grave
     * @param isCall whether somebody would have been called
     * @param finding what it tells of; empty where an earlier leat folded it
     * @param number by which people call the alarm
     */
    record Part(
            String id,
            Grade grade,
            boolean isCall,
            Optional<Finding> finding,
            OptionalLong number) {
        Part {
            requireNonNull(id, "id");
            requireNonNull(grade, "grade");
            requireNonNull(finding, "finding");
            requireNonNull(number, "number");
        }

        static Part of(Notification message) {
            About about = message.about();
            return new Part(
                    message.id(),
                    about.grade(),
                    about.kind() == Message.Purpose.CALL,
                    about.alarm().map(alarm -> alarm.change().finding()),
                    about.alarm().map(Changed::number).orElse(OptionalLong.empty()));
        }

        private boolean isOfPressure() {
            return finding.stream().noneMatch(found -> found.rule().isAboutSignal());
        }
    }

    /** Calls before news, what is graver before what is milder, pressures before signals. */
    private static final Comparator<Part> GRAVEST_FIRST =
            Comparator.comparing(Part::isCall)
                    .thenComparing(Part::grade)
                    .thenComparing(Part::isOfPressure)
                    .reversed();

    More {
        requireNonNull(machine, "machine");
        parts = List.copyOf(parts);
    }

    /** A call, so that the other routes are told when it cannot be delivered. */
    @Override
    public Message.Purpose kind() {
        return Message.Purpose.CALL;
    }

    @Override
    public String event() {
        return "more";
    }

    @Override
    public Grade grade() {
        return parts.stream().map(Part::grade).max(Comparator.naturalOrder()).orElseThrow();
    }

    List<Part> gravestFirst() {
        return parts.stream().sorted(GRAVEST_FIRST).toList();
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        return wording.more(notification, this);
    }
}
