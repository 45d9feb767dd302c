package leat.config;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.time.LocalTime;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Pattern;
import leat.rule.Grade;

/** Reads what every route may say of the messages that it carries. */
final class ScopeReader {

    static final Key<Grade> AT_LEAST =
            Key.withDefault(
                    "at_least",
                    ChoiceForm.of(List.of(Grade.values()), Enum::name),
                    Grade.ADVISORY,
                    Key.CHOICE,
                    "messages of a lower grade are not sent this way");
    static final Key<List<String>> MACHINES =
            Key.optional(
                    "machines",
                    new ListForm<>(ChannelReader.nameOf("machine"), "names of machines", 1000),
                    "only messages about these machines are sent this way; left out, about all");
    static final Key<Duration> GIVE_UP_AFTER =
            Key.withDefault(
                    "give_up_after",
                    TimeForm.of(Duration.ofMinutes(10), Duration.ofDays(30)),
                    RouteScope.GIVE_UP_AFTER,
                    Key.CHOICE,
                    "age at which a message that cannot be delivered is given up, after an hour of"
                            + " tries at least; the other routes are told");

    static final Key<QuietHours> QUIET_HOURS =
            Key.optional(
                    "quiet_hours",
                    new QuietHoursForm(),
                    "hours on the site's clock in which only CRITICAL is told; the rest waits for"
                            + " their end");

    static final Key<Duration> ESCALATE_AFTER =
            Key.optional(
                    "escalate_after",
                    TimeForm.of(Duration.ofMinutes(1), Duration.ofDays(7)),
                    "this route is called only when a WARNING or CRITICAL has stood so long and"
                            + " nobody has acknowledged it; left out, at once");
    static final Key<Duration> REPEAT_EVERY =
            Key.optional(
                    "repeat_every",
                    TimeForm.of(Duration.ofMinutes(1), Duration.ofDays(7)),
                    "how often a WARNING or CRITICAL is told again until it is acknowledged, put"
                            + " aside or gone; left out, never");

    static final Key<Integer> AT_MOST =
            Key.withDefault(
                    "at_most",
                    NumberForm.whole(1, 1000),
                    10,
                    "ISA-18.2 / IEC 62682, at second hand: more than 10 alarms in 10 min are a flood",
                    "messages of one machine in ten minutes that are told one by one; what is more"
                            + " and not CRITICAL is told in one");

    private static final Form<LocalTime> TIME_OF_DAY =
            new AdaptedForm<>(
                    new TextForm(
                            "HH:MM",
                            Pattern.compile("([01][0-9]|2[0-3]):[0-5][0-9]"),
                            "a time of the day from 00:00 to 23:59, such as 07:00"),
                    LocalTime::parse,
                    LocalTime::toString);

    static final Key<LocalTime> ALL_IS_WELL =
            Key.optional(
                    "all_is_well",
                    TIME_OF_DAY,
                    "when this way goes each day a line about each machine, on the site's clock;"
                            + " left out, never");

    static final Key<LocalTime> ADVISORIES =
            Key.optional(
                    "advisories",
                    TIME_OF_DAY,
                    "when this way goes each day, in one message, what came of ADVISORY alarms, on"
                            + " the site's clock; left out, one by one");

    private final Set<String> machines;

    /**
     * @param machines the machines that the file knows
     */
    ScopeReader(Set<String> machines) {
        this.machines = Set.copyOf(requireNonNull(machines, "machines"));
    }

    /** Of a block that has these keys, or the first two. */
    Optional<RouteScope> read(Fields fields) {
        boolean known = fields.maybe(MACHINES).isEmpty() || checkMachines(fields);
        checkAdvisories(fields);
        if (!known || !fields.isWhole()) {
            return Optional.empty();
        }
        return Optional.of(
                new RouteScope(
                        fields.the(AT_LEAST),
                        fields.maybe(MACHINES).orElse(List.of()),
                        fields.maybe(GIVE_UP_AFTER).orElse(RouteScope.GIVE_UP_AFTER),
                        policy(fields)));
    }

    private static RoutePolicy policy(Fields fields) {
        return new RoutePolicy(
                fields.maybe(QUIET_HOURS),
                fields.maybe(ESCALATE_AFTER),
                fields.maybe(REPEAT_EVERY),
                fields.maybe(AT_MOST).map(OptionalInt::of).orElse(OptionalInt.empty()),
                fields.maybe(ALL_IS_WELL),
                fields.maybe(ADVISORIES));
    }

    /** Somebody who set a time for them waits for them. */
    private static void checkAdvisories(Fields fields) {
        if (fields.maybe(ADVISORIES).isEmpty()) {
            return;
        }
        Cursor at = fields.at("advisories").orElseThrow();
        fields.maybe(AT_LEAST)
                .filter(grade -> grade.isAtLeast(Grade.WARNING))
                .ifPresent(
                        grade ->
                                at.wrong(
                                        "at_least " + grade + " sends no ADVISORY this way",
                                        "at_least: ADVISORY, or no time for advisories"));
        if (fields.maybe(ESCALATE_AFTER).isPresent()) {
            at.wrong(
                    "escalate_after sends no ADVISORY this way",
                    "one of the two: what nobody answers, or advisories each day");
        }
    }

    private boolean checkMachines(Fields fields) {
        boolean good = true;
        Set<String> named = new HashSet<>();
        for (Cursor each : fields.at("machines").flatMap(at -> at.items("")).orElse(List.of())) {
            String name = each.text("").orElse("");
            if (!machines.contains(name)) {
                good = false;
                each.wrong(
                        "there is no machine " + Cursor.quote(name),
                        "machines: "
                                + String.join(", ", machines.stream().sorted().toList())
                                + "."
                                + Spelling.didYouMean(name, machines));
            } else if (!named.add(name)) {
                good = false;
                each.wrong(Cursor.quote(name) + " stands here twice", "each machine once");
            }
        }
        return good;
    }
}
