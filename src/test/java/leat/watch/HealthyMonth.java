package leat.watch;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Collectors;
import leat.bench.line.Fault;
import leat.watch.BenchFeed.Wiring;

/**
 * A month of work of sound machines: days of eight starts, a supply that wanders, six dips of the
 * shop's water an hour and two deep ones in three days. Whatever is called then is a false alarm.
 * Nights are left out. Run {@link #main} for the table; it takes some twenty seconds.
 */
final class HealthyMonth {

    private static final int STARTS_A_DAY = 8;
    private static final double DEEP_DIPS_A_DAY = 0.7;
    private static final double SECONDS_BETWEEN_DIPS = 600;
    private static final double DIP_SETTLES_SECONDS = 1;

    /**
     * A machine of the month.
     *
     * @param supplyPsi house pressure
     * @param setPsi level of the regulator
     */
    record Variant(double supplyPsi, double setPsi, Wiring wiring) {

        @Override
        public String toString() {
            return String.format(Locale.ROOT, "%.0f to %.0f psi, %s", supplyPsi, setPsi, wiring);
        }
    }

    static final List<Variant> VARIANTS =
            List.of(
                    new Variant(42, 100, Wiring.PRESSURES),
                    new Variant(33, 96, Wiring.RUNNING),
                    new Variant(58, 104, Wiring.RUNNING_AND_VALVE),
                    new Variant(48, 114, Wiring.PRESSURES));

    private HealthyMonth() {}

    /** Days of one machine, with so many minutes of running after each start. */
    static BenchFeed feed(Variant variant, int days, double runMinutes, long seed) {
        Random random = new Random(seed);
        Plays play = Plays.of(variant.supplyPsi(), variant.setPsi(), seed);
        double now = 30;

        for (int start = 0; start < days * STARTS_A_DAY; start++) {
            double length = 60 * runMinutes * (0.5 + random.nextDouble());
            play.run(now, now + length);

            now += length + (random.nextInt(6) == 0 ? 3 : 40) + 60 * random.nextDouble();
        }
        double deepShare = DEEP_DIPS_A_DAY * days / (now / SECONDS_BETWEEN_DIPS);
        double dip = 100;
        while (dip < now) {
            boolean deep = random.nextDouble() < deepShare;
            double psi = deep ? 8 + 8 * random.nextDouble() : 1 + 6 * random.nextDouble();
            double seconds = deep ? 2 + 6 * random.nextDouble() : 2 + 13 * random.nextDouble();
            play.strike(dip, Fault.WEAK_SUPPLY, psi / variant.supplyPsi());
            play.repair(dip + DIP_SETTLES_SECONDS + seconds, Fault.WEAK_SUPPLY);
            dip += 30 + 2 * (SECONDS_BETWEEN_DIPS - 30) * random.nextDouble();
        }
        return play.feed(now).wiring(variant.wiring());
    }

    /** Each kind of call and of startup, counted. */
    static Map<String, Long> counted(List<String> all) {
        return all.stream()
                .collect(Collectors.groupingBy(x -> x, TreeMap::new, Collectors.counting()));
    }

    /** Prints what is called in a month; the arguments are days and minutes of a run. */
    public static void main(String[] args) {
        int days = args.length > 0 ? Integer.parseInt(args[0]) : 22;
        double minutes = args.length > 1 ? Double.parseDouble(args[1]) : 6;
        for (Variant variant : VARIANTS) {
            long began = System.nanoTime();
            Told told = feed(variant, days, minutes, 1).told();
            System.out.printf(
                    Locale.ROOT,
                    "%-38s calls %s, startups %s, steady %.1f h, %.1f s%n",
                    variant,
                    counted(told.raised()),
                    counted(told.verdicts.stream().map(v -> v.outcome().name()).toList()),
                    told.steadies.stream().mapToDouble(s -> s.toMicros() - s.fromMicros()).sum()
                            / 3.6e9,
                    (System.nanoTime() - began) / 1e9);
        }
    }
}
