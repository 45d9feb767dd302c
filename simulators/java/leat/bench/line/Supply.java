package leat.bench.line;

import leat.bench.water.Units;

/**
 * The shop's main: a pressure that wanders a little and dips while others draw. Thread-confined.
 * All figures invented.
 */
final class Supply {

    private static final double DRIFT_SECONDS = 15;
    private static final double DIP_EDGE_SECONDS = 0.8;
    private static final double SHORTEST_DIP_SECONDS = 3;
    private static final double LONGEST_DIP_SECONDS = 15;
    private static final double CHANGE_SECONDS = 0.5;
    private static final double SECONDS_PER_HOUR = 3600;

    private final double pressure;
    private final double driftPressure;
    private final double dipPressure;
    private final double dipCellSeconds;
    private final Chance chance;
    private final Drift drift;
    private Approach share = Approach.standing(1);

    Supply(LineSettings settings, Chance chance) {
        pressure = settings.supplyPsi() * Units.PSI;
        driftPressure = settings.build().driftPsi() * Units.PSI;
        dipPressure = settings.build().dipPsi() * Units.PSI;
        dipCellSeconds = SECONDS_PER_HOUR / settings.build().dipsPerHour();
        this.chance = chance;
        drift = new Drift(chance, Chance.Stream.SUPPLY, DRIFT_SECONDS);
    }

    /** Gauge pressure in Pa with nothing drawn. */
    double pressure(double now) {
        double whole = pressure + driftPressure * drift.at(now) - dip(now);
        return Math.max(whole * share.at(now), 0);
    }

    void weaken(double severity, double now) {
        share = share.towards(1 - severity, now, CHANGE_SECONDS);
    }

    /** Each stretch of time has one dip, at a drawn place in it. */
    private double dip(double now) {
        if (dipPressure == 0 || Double.isInfinite(dipCellSeconds)) {
            return 0;
        }
        long cell = (long) Math.floor(now / dipCellSeconds);
        double into = now - cell * dipCellSeconds;
        double length =
                Math.min(
                        chance.draw(
                                Chance.Stream.DIP_LENGTH,
                                cell,
                                SHORTEST_DIP_SECONDS,
                                LONGEST_DIP_SECONDS),
                        dipCellSeconds / 2);
        double room = dipCellSeconds - length - 2 * DIP_EDGE_SECONDS;
        double onset = chance.draw(Chance.Stream.DIP_ONSET, cell) * room;
        double depth = dipPressure * chance.draw(Chance.Stream.DIP_DEPTH, cell, 0.3, 1);
        double down = Smooth.step((into - onset) / DIP_EDGE_SECONDS);
        double up = Smooth.step((into - onset - length) / DIP_EDGE_SECONDS);
        return depth * (down - up);
    }
}
