package leat.bench.line;

import leat.bench.water.Units;

/**
 * The shop's main: a pressure that moves as the {@link House} says. Thread-confined. All figures
 * invented.
 */
final class Supply {

    private static final double DRIFT_SECONDS = 15;

    /** The wander turns at random heights that lie so far apart. */
    private static final double WANDER_SECONDS = 7200;

    private static final double DIP_EDGE_SECONDS = 0.8;
    private static final double LEAST_SHARE = 0.5;
    private static final double MOST_SHARE = 1.5;
    private static final double CHANGE_SECONDS = 0.5;
    private static final double SECONDS_PER_HOUR = 3600;

    private final double pressure;
    private final House house;
    private final Chance chance;
    private final Drift drift;
    private final Drift wander;
    private Approach share = Approach.standing(1);
    private Dip dip = new Dip(Long.MIN_VALUE, 0, 0, 0);

    /** The dip of a stretch of time: when in it, for how long, how deep. */
    private record Dip(long number, double onset, double length, double depthPsi) {}

    Supply(LineSettings settings, Chance chance) {
        pressure = settings.supplyPsi() * Units.PSI;
        house = settings.build().house();
        this.chance = chance;
        drift = new Drift(chance, Chance.Stream.SUPPLY, DRIFT_SECONDS);
        wander = new Drift(chance, Chance.Stream.WANDER, WANDER_SECONDS);
    }

    /** Gauge pressure in Pa with nothing drawn. */
    double pressure(double now) {
        double moved =
                house.driftPsi() * drift.at(now) + house.wanderPsi() * wander.at(now) - dip(now);
        return Math.max((pressure + moved * Units.PSI) * share.at(now), 0);
    }

    void weaken(double severity, double now) {
        share = share.towards(1 - severity, now, CHANGE_SECONDS);
    }

    /** Depth of the present dip, psi: each stretch of time has one, at a drawn place in it. */
    private double dip(double now) {
        if (house.dipPsi() == 0 || house.dipsPerHour() == 0) {
            return 0;
        }
        double stretch = SECONDS_PER_HOUR / house.dipsPerHour();
        long number = (long) Math.floor(now / stretch);
        if (number != dip.number()) {
            dip = drawn(number, stretch);
        }
        double into = now - number * stretch;
        double down = Smooth.step((into - dip.onset()) / DIP_EDGE_SECONDS);
        double up = Smooth.step((into - dip.onset() - dip.length()) / DIP_EDGE_SECONDS);
        return dip.depthPsi() * (down - up);
    }

    private Dip drawn(long number, double stretch) {
        double drawn = chance.draw(Chance.Stream.DIP_LENGTH, number, LEAST_SHARE, MOST_SHARE);
        double length = Math.min(house.dipSeconds() * drawn, stretch / 2);
        double room = stretch - length - 2 * DIP_EDGE_SECONDS;
        double onset = chance.draw(Chance.Stream.DIP_ONSET, number) * room;
        double depth =
                house.dipPsi() * chance.draw(Chance.Stream.DIP_DEPTH, number, LEAST_SHARE, 1);
        return new Dip(number, onset, length, depth);
    }
}
