package leat.diagnose;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Which way each cause moves each feature: the table that people review. How much is fitted to
 * bench runs under these signs, and stands in {@code weights.properties}. A cause has a row for
 * each picture that it can give.
 *
 * <p>A cell is the key of a feature, a sign and a source. Signs: {@code +} up, {@code -} down,
 * {@code ~} either way by how the machine is built. What is not named does not move: where it does
 * move, that speaks against the cause. Sources: {@code p} common practice, no published source;
 * {@code m} own model runs.
 */
final class CauseTable {

    /** Which way a cause moves a feature. */
    enum Direction {
        UP,
        DOWN,
        EITHER,
        /** It does not. */
        NOT;

        private static Direction of(char sign) {
            return switch (sign) {
                case '+' -> UP;
                case '-' -> DOWN;
                case '~' -> EITHER;
                default -> throw new IllegalArgumentException("no sign: " + sign);
            };
        }
    }

    /** Where a direction is from. */
    enum Source {
        PRACTICE,
        MODEL;

        private static Source of(char letter) {
            return switch (letter) {
                case 'p' -> PRACTICE;
                case 'm' -> MODEL;
                default -> throw new IllegalArgumentException("no source: " + letter);
            };
        }
    }

    /** One cell. */
    record Cell(Direction direction, Source source) {}

    /**
     * One picture of a cause.
     *
     * @param key of the cause, with a number where it has several pictures
     */
    record Row(String key, Cause cause, Map<Feature, Cell> cells) {

        Row {
            EnumMap<Feature, Cell> copy = new EnumMap<>(Feature.class);
            copy.putAll(cells);
            cells = Collections.unmodifiableMap(copy);
        }

        Direction direction(Feature feature) {
            return cells.containsKey(feature) ? cells.get(feature).direction() : Direction.NOT;
        }

        /** Whether it moves what differs, and that way. */
        boolean explains(Evidence evidence) {
            return switch (direction(evidence.feature())) {
                case UP -> evidence.sureness() >= 0;
                case DOWN -> evidence.sureness() <= 0;
                case EITHER -> true;
                case NOT -> false;
            };
        }
    }

    private static final String TABLE =
            """
            healthy
            # Slip through the pump: it loses under load first, and climbs more slowly.
            worn-booster.1: inlet-ripple-m inlet-wander+m sway~m rise-from-inlet+m boost-rate-m time-to-level+m start-to-90+m rise~m \
                drop+p run-drop+p peak-drop+p loaded-p level-p lift-m ratio-m ripple+m wander+m start-wander+m overshoot~m fall~m filter-loss-m \
                level-scatter+m unloaded-m highest-m
            worn-booster.2: unboosted~m inlet-ripple-m inlet-wander+m sway~m unloaded-p highest-p loaded-p level-p lift-p ratio-p boost-rate-m time-to-level+m \
                rise~m rise-from-inlet~m start-to-90~m drop~m run-drop~m peak-drop~m ripple~m wander+m start-wander+m overshoot~m fall~m \
                filter-loss-m inlet-sag~m not-risen+m
            # Water only passes through it.
            not-turning: unboosted+p inlet-ripple~m inlet-wander-m sway~m ratio-p lift-p loaded-p level-p unloaded-p highest-p not-risen+p boost-rate-m rise~m \
                rise-from-inlet~m start-to-90~m time-to-level+m dead~m drop~m run-drop~m peak-drop~m ripple~m wander+m start-wander+m \
                overshoot~m fall~m filter-loss-m inlet-sag~m inlet-dip~m inlet~m
            coupling-slips: unboosted~m inlet-ripple~m inlet-wander+p sway-m wander+p start-wander+p ripple+p loaded-p level-p unloaded-m highest-m ratio-m lift-m drop+m run-drop+m peak-drop+m rise+m \
                rise-from-inlet+m boost-rate-m time-to-level+m start-to-90+m not-risen+m \
                level-scatter+m overshoot~m fall~m filter-loss-m
            weak-supply.1: inlet-ripple~m inlet-wander+m sway~m inlet-rest-p inlet-p ratio~m lift~m loaded-m level-m \
                unloaded-m highest-m rise+m start-to-90+m rise-from-inlet+m dead+m time-to-level+m boost-rate~m \
                inlet-dip-m inlet-sag~m drop~m run-drop~m peak-drop~m fall~m ripple~m wander+m start-wander+m \
                filter-loss~m overshoot~m
            # By a gauge behind the valve, which has no rest to compare with.
            weak-supply.2: inlet-ripple~m inlet-wander+m sway~m inlet-p ratio~m lift~m loaded-m level-m unloaded-m \
                highest-m rise+m start-to-90+m rise-from-inlet+m dead+m time-to-level+m boost-rate~m drop~m run-drop~m \
                peak-drop~m fall~m ripple~m wander+m start-wander+m filter-loss~m overshoot~m
            # What is trapped may read full pressure before the start.
            supply-shut: unboosted+m inlet-ripple~m inlet-wander+m sway~m inlet-p loaded-p level-p unloaded-p highest-p not-risen+p inlet-sag+p inlet-dip+p lift~m \
                ratio~m rise~m rise-from-inlet~m start-to-90+m time-to-level+m dead+m boost-rate-m \
                inlet-rest~m inlet-drained~m drop~m run-drop~m peak-drop~m wander+m start-wander+m ripple~m fall~m filter-loss~m base~m \
                overshoot~m
            # Before the inlet gauge: the more is drawn the less is left.
            strainer-clogged.1: unboosted~m inlet-ripple~m inlet-wander+m sway~m inlet-sag+p inlet-dip+m inlet-p \
                ratio~m lift~m loaded-m level-m unloaded-m highest-m drop+m run-drop+m peak-drop+m rise+m \
                start-to-90+m rise-from-inlet+m time-to-level+m dead+m boost-rate-m wander+m start-wander+m ripple~m \
                not-risen+m fall~m filter-loss-m overshoot~m level-scatter+m
            # By a gauge behind the valve, which has no rest to compare with.
            strainer-clogged.2: unboosted~m inlet-ripple~m inlet-wander+m sway~m inlet-p ratio~m lift~m loaded-m \
                level-m unloaded-m highest-m drop+m run-drop+m peak-drop+m rise+m start-to-90+m rise-from-inlet+m \
                time-to-level+m dead+m boost-rate-m wander+m start-wander+m ripple~m not-risen+m fall~m filter-loss-m \
                overshoot~m level-scatter+m
            # Behind the inlet gauge: less inrush, and the booster sucks on it.
            valve-part-open.1: unboosted~m inlet-ripple~m inlet-wander+m sway~m inlet-dip-m inlet-sag-m inlet+m rise+p rise-from-inlet+m \
                start-to-90+p time-to-level+m dead+m boost-rate-m loaded-m level-m unloaded-m highest-m drop+m run-drop+m peak-drop+m \
                ratio-m lift-m wander+m start-wander+m ripple~m not-risen+m fall~m overshoot~m filter-loss-m
            # Before a gauge that sits behind the valve: like a strainer.
            valve-part-open.2: inlet-ripple~m inlet-wander+m sway~m inlet-m ratio+m lift+m rise+p rise-from-inlet+m start-to-90+p \
                time-to-level+m dead+m boost-rate-m loaded-m level-m unloaded-m highest-m drop~m run-drop~m peak-drop~m wander+m start-wander+m ripple~m \
                not-risen+m fall~m overshoot~m filter-loss-m
            valve-slow: dead+p start-to-90+p rise+m rise-from-inlet+m time-to-level+m \
                boost-rate-m inlet-dip-m overshoot~m peak-drop~m fall+m
            # It follows the inlet at rest.
            valve-leaks: base+p rest-pressure+p rest-share+p inlet-drained+m inlet-rest-m \
                inlet-sag-m inlet-dip-m fall+m rise-m rise-from-inlet~m start-to-90-m dead~m \
                time-to-level-m boost-rate~m overshoot~m peak-drop~m
            filters-clogged: filter-loss+p ripple~m drop~m run-drop~m peak-drop~m fall~m loaded~m level~m unloaded~m \
                highest~m lift~m ratio~m
            # As low before the strokes as under them.
            set-low: unboosted-m inlet-ripple~m inlet-wander+m sway~m loaded-p level-p unloaded-p highest-p ratio-p lift-p rise-m rise-from-inlet-m start-to-90-m \
                time-to-level~m drop~m run-drop~m peak-drop~m boost-rate~m fall~m ripple~m wander+m start-wander+m overshoot~m \
                filter-loss~m inlet-sag~m
            set-high: inlet-ripple~m inlet-wander+m sway~m loaded+p level+p unloaded+p highest+p ratio+p lift+p rise+m rise-from-inlet+m start-to-90+m \
                time-to-level~m drop~m run-drop~m peak-drop~m boost-rate~m fall~m ripple~m wander+m start-wander+m overshoot~m \
                filter-loss~m inlet-sag~m
            regulator-sticking: inlet-ripple~m inlet-wander+m sway~m level-scatter+p wander+p start-wander+p overshoot~m loaded~m level~m unloaded~m highest~m ratio~m \
                lift~m drop~m run-drop~m peak-drop~m rise~m rise-from-inlet~m start-to-90~m time-to-level~m boost-rate~m \
                ripple~m fall~m filter-loss~m
            # It has to be pressed together at each start and lets go slowly.
            air: inlet-ripple~m rise+p rise-from-inlet+p start-to-90+p dead+p time-to-level+m boost-rate-m \
                fall+p quicker+p ripple-m base+m rest-pressure+m rest-share+m drop~m run-drop~m peak-drop~m wander+m start-wander+m \
                overshoot~m not-risen+m unloaded~m highest~m level-scatter~m inlet-dip~m
            # More flow than the intensifier takes, also after the stop.
            external-leak.1: unboosted~m inlet-ripple~m inlet-wander+m sway~m inlet-sag+p inlet-dip+m fall-p inlet-m \
                rise+m rise-from-inlet+m start-to-90+m time-to-level+m boost-rate-m loaded-m level-m unloaded-m \
                highest-m ratio~m lift~m drop~m run-drop~m peak-drop~m dead~m ripple~m wander+m start-wander+m \
                not-risen+m filter-loss-m overshoot~m base-m rest-pressure-m
            # By a gauge behind the valve, which has no rest to compare with.
            external-leak.2: unboosted~m inlet-ripple~m inlet-wander+m sway~m fall-p inlet-m rise+m rise-from-inlet+m \
                start-to-90+m time-to-level+m boost-rate-m loaded-m level-m unloaded-m highest-m ratio~m lift~m drop~m \
                run-drop~m peak-drop~m dead~m ripple~m wander+m start-wander+m not-risen+m filter-loss-m overshoot~m \
                base-m rest-pressure-m
            # At rest and running by the same.
            inlet-offset.1: unboosted~m inlet+p inlet-rest+p inlet-drained+m ratio-p lift-p \
                rise-from-inlet~m boost-rate~m
            inlet-offset.2: inlet-p inlet-rest-p inlet-drained-m ratio+p lift+p \
                rise-from-inlet~m boost-rate~m
            boosted-offset.1: base+p rest-pressure+p rest-share+p loaded+p level+p unloaded+p highest+p lift+p \
                ratio+p filter-loss+m rise-from-inlet~m boost-rate~m time-to-level-m fall+m
            boosted-offset.2: base-p rest-pressure-p rest-share-p loaded-p level-p unloaded-p highest-p lift-p \
                ratio-p filter-loss-m rise-from-inlet~m boost-rate~m time-to-level+m fall-m
            # Each reads what the other should.
            # The inlet gauge would read next to nothing at rest: a share of it says that they are right.
            swapped: unboosted+p inlet-ripple~m inlet-wander+m sway~m inlet+p ratio-p lift-p loaded-p level-p unloaded-p highest-p base+p rest-pressure+p \
                rest-share-p inlet-rest~m inlet-drained~m inlet-sag-m inlet-dip~m not-risen+m \
                rise~m rise-from-inlet~m start-to-90~m time-to-level~m dead~m boost-rate~m drop~m run-drop~m peak-drop~m \
                ripple~m wander+m start-wander+m filter-loss~m fall~m overshoot~m
            """;

    private static final List<Row> ROWS =
            TABLE.lines().filter(line -> !line.startsWith("#")).map(CauseTable::row).toList();

    private CauseTable() {}

    /** The first is {@link Cause#HEALTHY}, which moves nothing. */
    static List<Row> rows() {
        return ROWS;
    }

    private static Row row(String line) {
        String[] parts = line.split(":");
        String key = parts[0].strip();
        Cause cause = Cause.byKey(key.split("\\.")[0]).orElseThrow();
        List<String> cells =
                parts.length == 1 ? List.of() : List.of(parts[1].strip().split("\\s+"));
        return new Row(
                key,
                cause,
                cells.stream().collect(Collectors.toMap(CauseTable::feature, CauseTable::cell)));
    }

    private static Feature feature(String cell) {
        return Feature.byKey(cell.substring(0, cell.length() - 2)).orElseThrow();
    }

    private static Cell cell(String cell) {
        return new Cell(
                Direction.of(cell.charAt(cell.length() - 2)),
                Source.of(cell.charAt(cell.length() - 1)));
    }
}
