package leat.diagnose;

import static leat.diagnose.Cause.AIR;
import static leat.diagnose.Cause.BOOSTED_OFFSET;
import static leat.diagnose.Cause.CONFIGURATION;
import static leat.diagnose.Cause.COUPLING_SLIPS;
import static leat.diagnose.Cause.EXTERNAL_LEAK;
import static leat.diagnose.Cause.FILTERS_CLOGGED;
import static leat.diagnose.Cause.HEALTHY;
import static leat.diagnose.Cause.INLET_OFFSET;
import static leat.diagnose.Cause.LOOSE_LOOP;
import static leat.diagnose.Cause.NOT_TURNING;
import static leat.diagnose.Cause.OPEN_LOOP;
import static leat.diagnose.Cause.REGULATOR_STICKING;
import static leat.diagnose.Cause.SET_HIGH;
import static leat.diagnose.Cause.SET_LOW;
import static leat.diagnose.Cause.STRAINER_CLOGGED;
import static leat.diagnose.Cause.STUCK;
import static leat.diagnose.Cause.SUPPLY_SHUT;
import static leat.diagnose.Cause.SWAPPED;
import static leat.diagnose.Cause.VALVE_LEAKS;
import static leat.diagnose.Cause.VALVE_PART_OPEN;
import static leat.diagnose.Cause.VALVE_SLOW;
import static leat.diagnose.Cause.WEAK_SUPPLY;
import static leat.diagnose.Cause.WORN_BOOSTER;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/**
 * How likely a careful person gives the first answer to a check, by what the cause is. Never under
 * 0.03 or over 0.97: people mishear, look at the wrong machine, and machines have two faults. All
 * of it is common practice, no published source, but {@link Check#JET_OFF}, whose order (worn and
 * valve in part recover, set low does not) is also that of our own model.
 *
 * <p>A row begins with the probability under every cause that it does not name: what a machine
 * answers in which the thing that is asked for is sound. Under {@link Cause#UNKNOWN} either answer
 * of any check is as likely.
 */
final class AnswerTable {

    static final double LEAST = 0.03;
    static final double MOST = 0.97;

    private static final Map<Check, Row> ROWS = rows();

    private AnswerTable() {}

    private static Map<Check, Row> rows() {
        EnumMap<Check, Row> rows = new EnumMap<>(Check.class);
        // A worn pump and a choked line hold what is set as long as little is drawn; a regulator
        // that opens early and a pump that does not turn do not. A coupling slips by speed in one
        // of our models and by torque in another: no more than a hint.
        rows.put(
                Check.JET_OFF,
                otherwise(0.95)
                        .with(0.85, STRAINER_CLOGGED)
                        .with(0.6, WEAK_SUPPLY)
                        .with(0.5, REGULATOR_STICKING, STUCK, OPEN_LOOP, LOOSE_LOOP)
                        .with(0.5, SWAPPED, CONFIGURATION)
                        .with(0.4, COUPLING_SLIPS, EXTERNAL_LEAK)
                        .with(0.3, BOOSTED_OFFSET)
                        .with(0.04, SET_LOW, NOT_TURNING, SUPPLY_SHUT));
        rows.put(Check.SHAFT, otherwise(0.96).with(0.9, COUPLING_SLIPS).with(0.05, NOT_TURNING));
        rows.put(
                Check.SUPPLY_VALVE,
                otherwise(0.96).with(0.9, WEAK_SUPPLY, STRAINER_CLOGGED).with(0.1, SUPPLY_SHUT));
        rows.put(
                Check.HOUSE_PRESSURE,
                otherwise(0.94).with(0.5, SUPPLY_SHUT).with(0.06, WEAK_SUPPLY));
        // Without flow nothing is lost on the way, so only the gauges themselves can differ.
        rows.put(
                Check.BOTH_GAUGES,
                otherwise(0.96)
                        .with(0.7, SUPPLY_SHUT)
                        .with(0.5, LOOSE_LOOP, OPEN_LOOP)
                        .with(0.15, STUCK, CONFIGURATION)
                        .with(0.04, INLET_OFFSET, BOOSTED_OFFSET));
        // Of what lets no pressure stand at rest it says nothing. Trapped pressure stays, and so
        // does what a gauge reads too much.
        rows.put(
                Check.HAND_VALVE,
                otherwise(0.5)
                        .with(0.96, VALVE_LEAKS)
                        .with(0.25, AIR)
                        .with(0.12, HEALTHY)
                        .with(0.04, BOOSTED_OFFSET, STUCK));
        // What a gauge reads too much cannot be let out: people will say either.
        rows.put(
                Check.RELIEVE,
                otherwise(0.04)
                        .with(0.5, BOOSTED_OFFSET, STUCK, CONFIGURATION)
                        .with(0.95, VALVE_LEAKS));
        rows.put(
                Check.OPEN_TO_AIR,
                otherwise(0.96)
                        .with(0.85, VALVE_LEAKS)
                        .with(0.3, CONFIGURATION)
                        .with(0.15, STUCK)
                        .with(0.04, BOOSTED_OFFSET));
        // Booster seals weep when they wear; a line that draws air has a place where it does.
        rows.put(
                Check.WALK_THE_LINE,
                otherwise(0.04).with(0.08, WORN_BOOSTER, AIR).with(0.95, EXTERNAL_LEAK));
        rows.put(
                Check.VENT,
                otherwise(0.05)
                        .with(0.12, STRAINER_CLOGGED)
                        .with(0.2, EXTERNAL_LEAK)
                        .with(0.4, SUPPLY_SHUT)
                        .with(0.95, AIR));
        // Any strainer has something in it; what is asked for is one that chokes.
        rows.put(
                Check.STRAINER,
                otherwise(0.08).with(0.2, SUPPLY_SHUT).with(0.93, STRAINER_CLOGGED));
        rows.put(
                Check.COUPLING_MARK,
                otherwise(0.97).with(0.4, NOT_TURNING).with(0.04, COUPLING_SLIPS));
        rows.put(
                Check.SHUT_OFF_VALVE,
                otherwise(0.95)
                        .with(0.85, VALVE_SLOW)
                        .with(0.6, SUPPLY_SHUT)
                        .with(0.05, VALVE_PART_OPEN));
        rows.put(
                Check.VALVE_TIMED,
                otherwise(0.96).with(0.65, VALVE_PART_OPEN, SUPPLY_SHUT).with(0.05, VALVE_SLOW));
        rows.put(
                Check.DIAL_GAUGE,
                otherwise(0.96)
                        .with(0.6, LOOSE_LOOP)
                        .with(0.5, STUCK, OPEN_LOOP, CONFIGURATION)
                        .with(0.04, INLET_OFFSET, SWAPPED));
        // What keeps the pump from reaching what is set keeps the level from following it.
        rows.put(
                Check.REGULATOR,
                otherwise(0.93)
                        .with(0.7, WEAK_SUPPLY)
                        .with(0.5, STRAINER_CLOGGED)
                        .with(0.4, STUCK)
                        .with(0.3, EXTERNAL_LEAK)
                        .with(0.2, COUPLING_SLIPS)
                        .with(0.12, WORN_BOOSTER, VALVE_PART_OPEN, REGULATOR_STICKING)
                        .with(0.04, NOT_TURNING, SUPPLY_SHUT));
        rows.put(Check.FILTER_GAUGE, otherwise(0.04).with(0.95, FILTERS_CLOGGED));
        rows.put(
                Check.WIRING,
                otherwise(0.96)
                        .with(0.9, INLET_OFFSET, BOOSTED_OFFSET)
                        .with(0.85, CONFIGURATION)
                        .with(0.6, STUCK)
                        .with(0.12, LOOSE_LOOP)
                        .with(0.05, OPEN_LOOP, SWAPPED));
        rows.put(Check.SETTINGS, otherwise(0.96).with(0.5, SWAPPED).with(0.06, CONFIGURATION));
        // Passes what the intensifier leaves over: all of a sound pump's surplus, sooner when set
        // low. What takes the surplus away keeps it shut. Many ears are not used to it.
        rows.put(
                Check.BYPASS,
                otherwise(0.8)
                        .with(0.85, SET_LOW)
                        .with(0.7, SET_HIGH)
                        .with(0.5, REGULATOR_STICKING, WEAK_SUPPLY, AIR)
                        .with(0.25, STRAINER_CLOGGED)
                        .with(0.15, WORN_BOOSTER, COUPLING_SLIPS, VALVE_PART_OPEN, EXTERNAL_LEAK)
                        .with(0.05, NOT_TURNING, SUPPLY_SHUT));
        // The sound of a starved pump, or of one that swallows air; worn bearings grumble too.
        rows.put(
                Check.LISTEN,
                otherwise(0.06)
                        .with(0.25, WORN_BOOSTER, COUPLING_SLIPS)
                        .with(0.45, WEAK_SUPPLY)
                        .with(0.6, STRAINER_CLOGGED, VALVE_PART_OPEN)
                        .with(0.7, AIR)
                        .with(0.85, SUPPLY_SHUT));
        rows.put(
                Check.SUCTION,
                otherwise(0.95)
                        .with(0.7, SUPPLY_SHUT)
                        .with(0.5, STUCK, OPEN_LOOP, LOOSE_LOOP, CONFIGURATION, INLET_OFFSET)
                        .with(0.1, SWAPPED)
                        .with(0.06, VALVE_PART_OPEN));
        // A clogged strainer still lets a small drain run for a while.
        rows.put(
                Check.WATER_RUNS,
                otherwise(0.96).with(0.75, WEAK_SUPPLY, STRAINER_CLOGGED).with(0.05, SUPPLY_SHUT));
        rows.put(Check.OTHER_USERS, otherwise(0.08).with(0.4, SUPPLY_SHUT).with(0.75, WEAK_SUPPLY));
        // A valve that leaks feeds what the drain lets out.
        rows.put(
                Check.DRAIN_OPEN,
                otherwise(0.95)
                        .with(0.75, VALVE_LEAKS)
                        .with(0.3, CONFIGURATION)
                        .with(0.15, STUCK)
                        .with(0.06, BOOSTED_OFFSET));
        return Collections.unmodifiableMap(rows);
    }

    /** Of the first answer of the check, when this is the cause. */
    static double first(Check check, Cause cause) {
        return ROWS.get(check).probability(cause);
    }

    /** Of any answer, when this is the cause. */
    static double of(Answer answer, Cause cause) {
        Check check = Check.of(answer);
        double first = first(check, cause);
        return check.answers().get(0) == answer ? first : 1 - first;
    }

    private static Row otherwise(double probability) {
        return new Row(probability, Map.of(Cause.UNKNOWN, 0.5));
    }

    private record Row(double otherwise, Map<Cause, Double> named) {

        Row {
            checked(otherwise);
            named.values().forEach(Row::checked);
        }

        private static void checked(double probability) {
            if (!(probability >= LEAST && probability <= MOST)) {
                throw new IllegalArgumentException("probability of an answer: " + probability);
            }
        }

        Row with(double probability, Cause... causes) {
            EnumMap<Cause, Double> more = new EnumMap<>(named);
            for (Cause cause : causes) {
                if (more.put(cause, probability) != null) {
                    throw new IllegalArgumentException("twice: " + cause);
                }
            }
            return new Row(otherwise, more);
        }

        double probability(Cause cause) {
            return named.getOrDefault(cause, otherwise);
        }
    }
}
