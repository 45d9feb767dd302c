package leat.config;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.words.Language;
import leat.words.Phrases;

/** Reads {@code limits}, the site's and each machine's own. */
final class LimitsReader {

    private static final Phrases WORDS = Phrases.in(Language.ENGLISH);

    private static final Map<Limit, Key<Double>> KEYS = keys();

    /** The groups by name, in the order in which they are declared. */
    private static final Map<String, Block> GROUPS = groups();

    static final Block BLOCK = block();

    private LimitsReader() {}

    private static Map<Limit, Key<Double>> keys() {
        Map<Limit, Key<Double>> keys = new EnumMap<>(Limit.class);
        for (Limit limit : Limit.values()) {
            keys.put(
                    limit,
                    Key.withDefault(
                            leaf(limit),
                            form(limit),
                            limit.defaultValue(),
                            WORDS.say("origin." + limit.origin().key()),
                            WORDS.say("meaning." + limit.key())));
        }
        return keys;
    }

    private static Map<String, Block> groups() {
        Map<String, List<Entry>> keys = new LinkedHashMap<>();
        for (Limit limit : Limit.values()) {
            keys.computeIfAbsent(group(limit), g -> new ArrayList<>()).add(KEYS.get(limit));
        }
        Map<String, Block> groups = new LinkedHashMap<>();
        keys.forEach((name, list) -> groups.put(name, Block.of(list.toArray(Entry[]::new))));
        return groups;
    }

    private static Block block() {
        return Block.of(
                GROUPS.entrySet().stream()
                        .map(
                                g ->
                                        Part.optional(
                                                g.getKey(),
                                                g.getValue(),
                                                WORDS.say("meaning." + g.getKey())))
                        .toArray(Entry[]::new));
    }

    private static String group(Limit limit) {
        return limit.key().substring(0, limit.key().indexOf('.'));
    }

    private static String leaf(Limit limit) {
        return limit.key().substring(limit.key().indexOf('.') + 1);
    }

    private static Form<Double> form(Limit limit) {
        return switch (limit.dimension()) {
            case PRESSURE -> QuantityForm.pressure(limit.min(), limit.max());
            case PRESSURE_RATE -> QuantityForm.pressureRate(limit.min(), limit.max());
            case TIME -> TimeForm.inSeconds(limit.min(), limit.max());
            case RATIO -> new NumberForm(limit.min(), limit.max(), false);
            case COUNT -> new NumberForm(limit.min(), limit.max(), true);
            case FLAG -> new AdaptedForm<>(new FlagForm(), yes -> yes ? 1.0 : 0.0, v -> v != 0);
        };
    }

    /** The value of a limit as it would be written. */
    static String print(Limit limit, double value) {
        return KEYS.get(limit).form().print(value);
    }

    /**
     * Reads one {@code limits} and puts it over others.
     *
     * @param at where it stands, if it does
     * @param over what holds where it says nothing
     */
    static GivenLimits read(Optional<Cursor> at, GivenLimits over) {
        if (at.isEmpty()) {
            return over;
        }
        GivenLimits own = readUnchecked(at.get());
        GivenLimits given = over.with(own.byLimit());
        LimitsCheck.of(given, own.byLimit().keySet()).report();
        return given;
    }

    /** Likewise, of limits that will be put over others, not looked at side by side. */
    static GivenLimits readUnchecked(Cursor at) {
        Map<Limit, GivenLimits.Given> own = new EnumMap<>(Limit.class);
        Fields groups = Fields.of(at, BLOCK);
        for (String group : GROUPS.keySet()) {
            groups.at(group).ifPresent(c -> readGroup(group, c, own));
        }
        return new GivenLimits(own);
    }

    private static void readGroup(String group, Cursor at, Map<Limit, GivenLimits.Given> own) {
        Fields fields = Fields.of(at, GROUPS.get(group));
        for (Limit limit : Limit.values()) {
            if (group(limit).equals(group) && fields.has(leaf(limit))) {
                Cursor there = fields.at(leaf(limit)).orElseThrow();
                fields.maybe(KEYS.get(limit))
                        .ifPresent(value -> own.put(limit, new GivenLimits.Given(value, there)));
            }
        }
    }

    /** The limits themselves; the defaults when they contradict one another, which is reported. */
    static Limits limits(GivenLimits given) {
        Map<Limit, Double> values = given.values();
        return Limits.areSound(values) ? Limits.with(values) : Limits.DEFAULTS;
    }
}
