package leat.diagnose;

import java.util.List;
import leat.rule.Grade;
import leat.rule.Rule;

/**
 * What a technician should look at first, and what to be careful of. The checks are common
 * practice, no published source. Immutable.
 *
 * @param checkFirst one to three short sentences, the likeliest and cheapest check first
 * @param caution what to do before any hands-on check
 */
public record Advice(List<String> checkFirst, String caution) {

    /** What to do before any hands-on check, whatever was found. */
    public static final String CAUTION =
            "Stop the machine, isolate water and electricity, lock out, and relieve pressure before"
                    + " opening a line. The intensifier's high-pressure side can injure fatally."
                    + " Follow the site's procedure and local codes, and leave the work to qualified"
                    + " people. leat only reads; it is no safety device and never replaces the"
                    + " machine's own trip.";

    private static final List<String> NOT_BOOSTING =
            List.of(
                    "Stop the booster; check its breaker and contactor.",
                    "Start it briefly with the guard on: does the shaft turn, and the right way round?",
                    "Motor turns alone: isolate the power, then check the coupling.");

    private static final List<String> WEAK_BOOST =
            List.of(
                    "Stop the intensifier for 10 s with the booster on: a level that recovers"
                            + " points to a worn booster.",
                    "Level low and steady even then: compare the regulator or bypass setting.",
                    "Level wanders over seconds: listen at the coupling for slip.");

    private static final List<String> LEVEL_LOW =
            List.of(
                    "Compare the dial gauge with the reading.",
                    "Low and steady: check the regulator setting. Low only while strokes run:"
                            + " suspect a worn booster.",
                    "Look for water between booster and intensifier.");

    private static final List<String> LEVEL_HIGH =
            List.of(
                    "Compare the dial gauge with the reading.",
                    "Check the regulator or bypass setting; with strokes running, lower it first,"
                            + " then raise it to the set level.");

    private static final List<String> NOT_RISEN =
            List.of(
                    "Stop the booster: it may run dry.",
                    "Check that the hand valve and the shut-off valve are open before a restart.",
                    "Inlet good and still no rise: check breaker, rotation and coupling of the"
                            + " booster.");

    private static final List<String> SLOW_RISE =
            List.of(
                    "Vent the air at the filter housings and compare the next start.",
                    "Slow at every start: check that the shut-off valve opens fully and promptly.",
                    "Valve good: suspect a worn booster.");

    private static final List<String> PRESSURE_AT_REST =
            List.of(
                    "Close the hand valve upstream: a rest pressure that falls to 0 means that the"
                            + " shut-off valve leaks.",
                    "It stays: the line bleeds slowly or holds air; wait 30 s and look again.",
                    "The dial gauge reads 0: check the transducer's zero.");

    private static final List<String> VALVE_LEAKS =
            List.of(
                    "Take the line to be under pressure: the shut-off valve leaks through.",
                    "Close the hand valve upstream: the boosted gauge should fall to 0.",
                    "Then plan to clean or replace the shut-off valve.");

    private static final List<String> STARVED =
            List.of(
                    "Stop the booster: it may run dry.",
                    "Check that the hand valve upstream is open before a restart.",
                    "Then check house pressure and the inlet strainer.");

    private static final List<String> WEAK_SUPPLY =
            List.of(
                    "Read the dial gauge at the inlet, at rest and running.",
                    "Low at rest too: check house pressure with the other users on.",
                    "Good at rest, low running: check the strainer, the hand valve and the hose"
                            + " for a kink.");

    private static final List<String> CHANGED =
            List.of(
                    "Was the line serviced or changed? Then tell leat, and it learns anew.",
                    "Level lower or reached later: stop the intensifier for 10 s with the booster"
                            + " on; if it recovers, suspect wear.",
                    "Inlet loses more: check strainer, hand valve and hose, and look for a leak.");

    private static final List<String> SILENT =
            List.of(
                    "Check that the device has power and its network cable is in.",
                    "Check the address or topic against the settings.",
                    "Until it speaks, read the dial gauges: leat is blind here.");

    private static final List<String> BAD =
            List.of(
                    "Check the transducer's connector and cable, and the supply of its loop.",
                    "Compare the dial gauge with the device's own display.",
                    "Until it is mended, read the dial gauges: leat does not judge this channel.");

    private static final List<String> STUCK =
            List.of(
                    "Compare the dial gauge with the reading.",
                    "Check connector and cable; unplug and plug the transducer.",
                    "Reading does not move with the gauge: replace the transducer.");

    public Advice {
        checkFirst = List.copyOf(checkFirst);
        if (checkFirst.isEmpty() || caution.isEmpty()) {
            throw new IllegalArgumentException("advice has a check and a caution");
        }
    }

    /** The advice for a finding of this rule and grade. */
    public static Advice on(Rule rule, Grade grade) {
        return new Advice(checks(rule, grade), CAUTION);
    }

    private static List<String> checks(Rule rule, Grade grade) {
        return switch (rule) {
            case RATIO -> grade == Grade.CRITICAL ? NOT_BOOSTING : WEAK_BOOST;
            case LEVEL_LOW -> LEVEL_LOW;
            case LEVEL_HIGH -> LEVEL_HIGH;
            case RISE -> grade == Grade.CRITICAL ? NOT_RISEN : SLOW_RISE;
            case REST -> grade == Grade.ADVISORY ? PRESSURE_AT_REST : VALVE_LEAKS;
            case INLET -> grade == Grade.CRITICAL ? STARVED : WEAK_SUPPLY;
            case BASELINE -> CHANGED;
            case SIGNAL_MISSING -> SILENT;
            case SIGNAL_BAD -> BAD;
            case SIGNAL_STUCK -> STUCK;
        };
    }
}
