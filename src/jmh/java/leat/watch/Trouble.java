package leat.watch;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import leat.bench.line.Fault;
import leat.bench.sensor.SensorFault;
import leat.bench.sensor.Tap;
import leat.signal.Channel;

/**
 * Something wrong that is played, and what a person with the same gauges would accept to hear of
 * it.
 *
 * @param key its name
 * @param rules rules of which any one says it
 * @param always whether it is there or not, so that its gauges always show it plainly
 * @param sizes how bad it is made, one after the other
 * @param comes puts it into a line
 */
record Trouble(String key, Set<String> rules, boolean always, List<Double> sizes, Comes comes) {

    /** How it comes. */
    @FunctionalInterface
    interface Comes {
        void into(DrawnLine line, double size);
    }

    private static final List<Double> SEVERITIES = List.of(0.35, 0.65, 1.0);
    private static final List<Double> PSI = List.of(4.0, 8.0, 16.0);
    private static final List<Double> PERCENT = List.of(5.0, 10.0, 20.0);
    private static final List<Double> ONCE = List.of(1.0);
    private static final String[] LEVEL = {"level-low", "ratio", "baseline"};
    private static final String[] SIGNAL = {"signal-bad", "signal-missing"};

    Trouble {
        rules = Set.copyOf(rules);
        sizes = List.copyOf(sizes);
    }

    /** Every fault of the line, and what can be wrong with the gauges that this machine has. */
    static List<Trouble> of(DrawnMachine machine, Random random) {
        List<Trouble> all = new ArrayList<>();
        for (Fault fault : Fault.values()) {
            all.add(
                    new Trouble(
                            fault.key(),
                            rules(fault),
                            false,
                            fault.isGraded() ? SEVERITIES : ONCE,
                            (line, size) -> line.line().strike(fault, size)));
        }
        List<Tap> taps = new ArrayList<>(List.of(Tap.INLET, Tap.BOOSTED));
        if (machine.has(Channel.FILTERED)) {
            taps.add(Tap.FILTERED);
        }
        all.add(wire(SensorFault.BROKEN_LOOP, taps.get(random.nextInt(taps.size()))));
        Tap shorted = taps.get(random.nextInt(2));
        all.add(wire(SensorFault.SHORTED_LOOP, shorted));
        all.add(wire(SensorFault.STUCK, taps.get(random.nextInt(2))));
        Tap loose = taps.get(random.nextInt(2));
        all.add(
                new Trouble(
                        "loose-loop " + loose.key(),
                        Set.of(SIGNAL),
                        false,
                        List.of(0.08, 0.2, 0.4),
                        (line, size) -> line.loosen(loose, size)));
        double sign = random.nextBoolean() ? 1 : -1;
        all.add(off("offset", SensorFault.OFFSET, Tap.INLET, sign, PSI));
        all.add(off("offset", SensorFault.OFFSET, Tap.BOOSTED, -sign, PSI));
        all.add(off("span", SensorFault.SPAN, Tap.BOOSTED, sign, PERCENT));
        all.add(
                new Trouble(
                        "swapped",
                        Set.of("signal-swapped"),
                        true,
                        ONCE,
                        (line, size) -> line.swap()));
        return all;
    }

    private static Trouble wire(SensorFault fault, Tap tap) {
        return new Trouble(
                fault.key() + " " + tap.key(),
                switch (fault) {
                    case SHORTED_LOOP -> with(SIGNAL, "signal-stuck", "level-high");
                    case STUCK -> Set.of("signal-stuck");
                    case BROKEN_LOOP, OFFSET, SPAN -> Set.of(SIGNAL);
                },
                true,
                ONCE,
                (line, size) -> line.strike(tap, fault, size));
    }

    private static Trouble off(
            String what, SensorFault fault, Tap tap, double sign, List<Double> sizes) {
        return new Trouble(
                what + " " + tap.key(),
                tap == Tap.INLET
                        ? Set.of("inlet", "ratio", "baseline")
                        : with(LEVEL, "level-high", "rest", "filter-loss"),
                false,
                sizes,
                (line, size) -> line.strike(tap, fault, sign * size));
    }

    private static Set<String> rules(Fault fault) {
        return switch (fault) {
            case WORN_BOOSTER, SET_TOO_LOW -> Set.of(LEVEL);
            case NOT_TURNING, COUPLING_SLIPS -> with(LEVEL, "rise");
            case WEAK_SUPPLY -> with(LEVEL, "inlet");
            case WATER_SHUT, EXTERNAL_LEAK, CLOGGED_STRAINER, PART_OPEN_VALVE ->
                    with(LEVEL, "inlet", "rise");
            case LEAKING_VALVE -> Set.of("rest", "baseline");
            case SLOW_VALVE -> Set.of("rise", "baseline");
            case CLOGGED_FILTER -> Set.of("filter-loss", "baseline", "level-low");
            case SET_TOO_HIGH -> Set.of("level-high", "baseline");
            case STICKING_REGULATOR -> with(LEVEL, "level-high");
            case AIR -> Set.of("rise", "baseline", "rest");
        };
    }

    private static Set<String> with(String[] some, String... more) {
        List<String> all = new ArrayList<>(List.of(some));
        all.addAll(List.of(more));
        return Set.copyOf(all);
    }

    /** One size of it, a little less by chance. */
    double size(int number, Random random) {
        double size = sizes.get(number);
        return sizes.size() == 1 ? size : size * (1 - 0.15 * random.nextDouble());
    }

    /** Its name without that of a tap, for the table. */
    String kind() {
        return key.startsWith("offset") || key.startsWith("span")
                ? key
                : key.split(" ", 2)[0].toLowerCase(Locale.ROOT);
    }

    /** Whether it may strike in the middle of a run; the others come at rest. */
    boolean strikesInRuns() {
        return !key.equals(Fault.AIR.key()) && !key.equals("swapped");
    }
}
