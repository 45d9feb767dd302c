package leat.bench.line;

import java.util.Locale;

/**
 * What a start of each kind of line shows at the two gauges, for setting the invented defaults and
 * for the catalogue in {@code simulators/README.md}. Run by hand; an argument is a fault's name.
 */
final class FiguresTable {

    private static final double[] SEVERITIES = {0.3, 0.6, 0.8, 1};

    private FiguresTable() {}

    public static void main(String[] arguments) {
        System.out.printf(
                "%-30s %6s %6s %6s %6s %6s %6s %6s %6s %6s %6s %6s %6s%n",
                "", "level", "inlet", "ratio", "rise", "dead", "lowest", "sag", "rest", "fall",
                "ripple", "wander", "drop");
        for (BoosterKind kind : BoosterKind.values()) {
            for (double supply : new double[] {32, 42, 56}) {
                print(kind + " at " + supply, visit(kind, supply, Fault.AIR, 0));
            }
            for (Fault fault : Fault.values()) {
                if (arguments.length == 0 || arguments[0].equals(fault.key())) {
                    faulty(kind, fault);
                }
            }
        }
    }

    private static void faulty(BoosterKind kind, Fault fault) {
        for (double severity : SEVERITIES) {
            if (fault.isGraded() || severity == 1) {
                print(
                        kind.key() + " " + fault.key() + " " + severity,
                        visit(kind, 42, fault, severity));
            }
        }
    }

    private static Visit visit(BoosterKind kind, double supply, Fault fault, double severity) {
        LineSettings settings = new LineSettings(supply, 100, Build.USUAL.withBooster(kind));
        LumpedLine line = new LumpedLine(settings, 1);
        if (severity > 0) {
            line.strike(fault, severity);
        }
        return Visit.to(line);
    }

    private static void print(String what, Visit visit) {
        System.out.printf(
                Locale.ROOT,
                "%-30s %6.1f %6.1f %6.2f %6.2f %6.2f %6.1f %6.1f %6.1f %6.1f %6.2f %6.2f %6.1f%n",
                what,
                visit.levelPsi(),
                visit.inletPsi(),
                visit.ratio(),
                visit.riseSeconds(),
                visit.deadSeconds(),
                visit.lowestInletPsi(),
                visit.sagPsi(),
                visit.restPsi(),
                visit.fallSeconds(),
                visit.ripplePsi(),
                visit.wanderPsi(),
                visit.dropPsi());
    }
}
