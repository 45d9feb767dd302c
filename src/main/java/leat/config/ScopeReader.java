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

/** Reads for what, when and how often again somebody is told, whatever the means. */
final class ScopeReader {

    private static final Key<List<String>> MACHINES =
            Key.optional(
                    "machines",
                    new ListForm<>(ChannelReader.nameOf("machine"), "names of machines", 1000),
                    "only these machines; left out, all");
    private static final Key<Grade> FROM =
            Key.withDefault(
                    "from",
                    ChoiceForm.of(List.of(Grade.values()), Enum::name),
                    Grade.ADVISORY,
                    Key.CHOICE,
                    "from this grade on; what is less grave is not told");

    static final Block ABOUT = Block.of(MACHINES, FROM);

    static final Key<QuietHours> LETS_SLEEP =
            Key.optional(
                    "lets_sleep",
                    new QuietHoursForm(),
                    "hours on the site's clock in which only CRITICAL is told; the rest waits for"
                            + " their end. Not by log");
    static final Key<Duration> REMINDS =
            Key.optional(
                    "reminds",
                    TimeForm.of(Duration.ofMinutes(1), Duration.ofDays(7)),
                    "how often a WARNING or CRITICAL is told again until somebody has acknowledged"
                            + " it or put it aside, or it is gone; left out, never. Not by log");
    static final Key<Duration> AFTER_NOBODY_ANSWERS =
            Key.optional(
                    "after_nobody_answers",
                    TimeForm.of(Duration.ofMinutes(1), Duration.ofDays(7)),
                    "called only when a WARNING or CRITICAL has stood so long and nobody has"
                            + " acknowledged it; left out, at once. Not by log");
    static final Key<Integer> BUNDLES_OVER =
            Key.withDefault(
                    "bundles_over",
                    NumberForm.whole(1, 1000),
                    10,
                    "ISA-18.2 / IEC 62682, at second hand: more than 10 alarms in 10 min are a flood",
                    "calls about one machine in ten minutes that are told one by one; what is over"
                            + " that and not CRITICAL is told in one. Not by log and mqtt");

    private static final Form<LocalTime> TIME_OF_DAY =
            new AdaptedForm<>(
                    new TextForm(
                            "HH:MM",
                            Pattern.compile("([01][0-9]|2[0-3]):[0-5][0-9]"),
                            "a time of the day from 00:00 to 23:59, such as 07:00"),
                    LocalTime::parse,
                    LocalTime::toString);

    static final Key<LocalTime> GOOD_MORNING =
            Key.optional(
                    "good_morning",
                    TIME_OF_DAY,
                    "when a line about each machine is told each day, on the site's clock; left"
                            + " out, never");
    static final Key<LocalTime> SMALL_MATTERS =
            Key.optional(
                    "small_matters",
                    TIME_OF_DAY,
                    "when what came of ADVISORY alarms is told each day in one message, on the"
                            + " site's clock; left out, one by one. Not by log and mqtt");
    static final Key<Duration> TRIES_FOR =
            Key.withDefault(
                    "tries_for",
                    TimeForm.of(Duration.ofMinutes(10), Duration.ofDays(30)),
                    RouteScope.GIVE_UP_AFTER,
                    Key.CHOICE,
                    "age at which a message that cannot be delivered is given up, after an hour of"
                            + " tries at least; the others are told. Not by log");

    private static final List<Key<?>> NOT_BY_LOG =
            List.of(
                    LETS_SLEEP,
                    REMINDS,
                    AFTER_NOBODY_ANSWERS,
                    BUNDLES_OVER,
                    SMALL_MATTERS,
                    TRIES_FOR);
    private static final List<Key<?>> NOT_BY_MQTT = List.of(BUNDLES_OVER, SMALL_MATTERS);

    private final Set<String> machines;

    /**
     * @param machines the machines that the file knows
     */
    ScopeReader(Set<String> machines) {
        this.machines = Set.copyOf(requireNonNull(machines, "machines"));
    }

    /**
     * @param who what stands beside the means
     * @param means the means by which they are told, as its key; empty where it is not clear
     */
    Optional<RouteScope> read(Fields who, Optional<String> means) {
        Optional<Fields> about = who.at("about").map(at -> Fields.of(at, ABOUT));
        boolean known = about.map(this::checkMachines).orElse(true);
        Grade from = about.flatMap(a -> a.maybe(FROM)).orElse(FROM.fallback().orElseThrow());
        checkSmallMatters(who, from);
        boolean fitting = fitTogether(who, means);
        if (!known || !fitting || !who.isWhole() || !about.map(Fields::isWhole).orElse(true)) {
            return Optional.empty();
        }
        return Optional.of(
                new RouteScope(
                        from,
                        about.flatMap(a -> a.maybe(MACHINES)).orElse(List.of()),
                        who.the(TRIES_FOR),
                        policy(who, means)));
    }

    private static RoutePolicy policy(Fields who, Optional<String> means) {
        boolean bundles = means.filter(m -> m.equals("log") || m.equals("mqtt")).isEmpty();
        return new RoutePolicy(
                who.maybe(LETS_SLEEP),
                who.maybe(AFTER_NOBODY_ANSWERS),
                who.maybe(REMINDS),
                bundles ? OptionalInt.of(who.the(BUNDLES_OVER)) : OptionalInt.empty(),
                who.maybe(GOOD_MORNING),
                who.maybe(SMALL_MATTERS));
    }

    /** What would do nothing by some means is not left standing: somebody relies on it. */
    private static boolean fitTogether(Fields who, Optional<String> means) {
        return switch (means.orElse("")) {
            case "log" -> without(NOT_BY_LOG, who, "by log, which has everything at once");
            case "mqtt" -> without(NOT_BY_MQTT, who, "by mqtt, where each alarm has its state");
            default -> true;
        };
    }

    private static boolean without(List<Key<?>> keys, Fields who, String where) {
        List<Cursor> there = keys.stream().flatMap(k -> who.at(k.name()).stream()).toList();
        there.forEach(at -> at.wrongKey(at.path(), "does nothing " + where, "leave it out"));
        return there.isEmpty();
    }

    /** Somebody who set a time for them waits for them. */
    private static void checkSmallMatters(Fields who, Grade from) {
        if (who.maybe(SMALL_MATTERS).isEmpty()) {
            return;
        }
        Cursor at = who.at(SMALL_MATTERS.name()).orElseThrow();
        if (from.isAtLeast(Grade.WARNING)) {
            at.wrong(
                    "about: { from: " + from + " } tells no ADVISORY",
                    "from: ADVISORY, or no time for small matters");
        }
        if (who.maybe(AFTER_NOBODY_ANSWERS).isPresent()) {
            at.wrong(
                    "after_nobody_answers tells no ADVISORY",
                    "one of the two: what nobody answers, or small matters each day");
        }
    }

    private boolean checkMachines(Fields about) {
        if (about.maybe(MACHINES).isEmpty()) {
            return true;
        }
        boolean good = true;
        Set<String> named = new HashSet<>();
        for (Cursor each : about.at("machines").flatMap(at -> at.items("")).orElse(List.of())) {
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
