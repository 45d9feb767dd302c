package leat.bench.line;

import static java.util.Objects.requireNonNull;

/**
 * How one machine differs from the next of its kind. All figures invented.
 *
 * @param booster kind of its pump
 * @param waterCelsius temperature of the water, 2 to 45 C
 * @param drawLitresPerMinute what the intensifier draws, 3 to 15
 * @param strokeHz strokes a second at that draw, 0.3 to 2
 * @param pumpLitresPerMinute what a vane pump sweeps, 1.3 to 4 times the draw
 * @param slipShare of it that slips back at 60 psi when new, 0.01 to 0.3
 * @param mainLossPsi lost at {@link #RATED_LITRES_PER_MINUTE} before the strainer, 0.2 to 10
 * @param strainerLossPsi lost at that flow in a clean strainer, 0.1 to 3
 * @param filterLossPsi lost at that flow in clean filters, 0.3 to 5
 * @param valveSeconds travel of the shut-off valve, 0.05 to 2
 * @param boosterDelaySeconds from the valve to the contactor, 0.01 to 2
 * @param hoseMlPerPsi give of the hoses behind the booster, 1 to 8
 * @param airMl air that usually stays in the line, at one atmosphere, 20 to 900
 * @param bleedLitresPerMinute through the bleed at 100 psi, 0.5 to 12
 * @param regulator what its level is regulated against
 * @param inletTap where its inlet gauge sits
 * @param house what others do to its supply
 */
public record Build(
        BoosterKind booster,
        double waterCelsius,
        double drawLitresPerMinute,
        double strokeHz,
        double pumpLitresPerMinute,
        double slipShare,
        double mainLossPsi,
        double strainerLossPsi,
        double filterLossPsi,
        double valveSeconds,
        double boosterDelaySeconds,
        double hoseMlPerPsi,
        double airMl,
        double bleedLitresPerMinute,
        RegulatorKind regulator,
        InletTap inletTap,
        House house) {

    /** Flow at which the losses of a build are given. */
    static final double RATED_LITRES_PER_MINUTE = 7.6;

    /** A machine of the invented boatyard. */
    public static final Build USUAL =
            new Build(
                    BoosterKind.VANE,
                    16,
                    7.6,
                    0.9,
                    16.5,
                    0.08,
                    1.5,
                    0.5,
                    2,
                    0.2,
                    0.35,
                    2.4,
                    290,
                    4.6,
                    RegulatorKind.GAUGE,
                    InletTap.BEFORE_VALVE,
                    House.QUIET);

    public Build {
        requireNonNull(booster, "booster");
        requireNonNull(regulator, "regulator");
        requireNonNull(inletTap, "inletTap");
        requireNonNull(house, "house");
        requireWithin("water temperature", waterCelsius, 2, 45);
        requireWithin("draw", drawLitresPerMinute, 3, 15);
        requireWithin("stroke rate", strokeHz, 0.3, 2);
        requireWithin("pump", pumpLitresPerMinute / drawLitresPerMinute, 1.3, 4);
        requireWithin("slip", slipShare, 0.01, 0.3);
        requireWithin("loss of the main", mainLossPsi, 0.2, 10);
        requireWithin("loss of the strainer", strainerLossPsi, 0.1, 3);
        requireWithin("loss of the filters", filterLossPsi, 0.3, 5);
        requireWithin("travel of the valve", valveSeconds, 0.05, 2);
        requireWithin("delay of the booster", boosterDelaySeconds, 0.01, 2);
        requireWithin("give of the hoses", hoseMlPerPsi, 1, 8);
        requireWithin("air", airMl, 20, 900);
        requireWithin("bleed", bleedLitresPerMinute, 0.5, 12);
    }

    /**
     * Another machine, as likely as the next, drawn from ranges wider than a single shop has. Its
     * regulator and its inlet gauge are the usual ones.
     */
    public static Build drawn(BoosterKind booster, long seed) {
        Chance chance = new Chance(seed);
        double draw = chance.draw(Chance.Stream.BUILD, 0, 5, 11);
        return new Build(
                booster,
                chance.draw(Chance.Stream.BUILD, 1, 5, 30),
                draw,
                chance.draw(Chance.Stream.BUILD, 2, 0.5, 1.5),
                draw * chance.draw(Chance.Stream.BUILD, 3, 1.7, 2.4),
                chance.draw(Chance.Stream.BUILD, 4, 0.05, 0.12),
                chance.draw(Chance.Stream.BUILD, 5, 0.8, 5),
                chance.draw(Chance.Stream.BUILD, 6, 0.2, 1),
                chance.draw(Chance.Stream.BUILD, 7, 0.5, 3),
                chance.draw(Chance.Stream.BUILD, 8, 0.05, 0.4),
                chance.draw(Chance.Stream.BUILD, 9, 0.05, 1.2),
                chance.draw(Chance.Stream.BUILD, 10, 2, 5),
                chance.draw(Chance.Stream.BUILD, 11, 100, 500),
                chance.draw(Chance.Stream.BUILD, 12, 2, 8),
                RegulatorKind.GAUGE,
                InletTap.BEFORE_VALVE,
                new House(
                        chance.draw(Chance.Stream.BUILD, 13, 0.2, 1.5),
                        0,
                        6,
                        chance.draw(Chance.Stream.BUILD, 14, 1, 7),
                        8));
    }

    /** The same machine with another pump. */
    public Build withBooster(BoosterKind other) {
        return with(other, waterCelsius, drawLitresPerMinute, regulator, inletTap, house);
    }

    /** The same machine with colder or warmer water. */
    public Build withWaterCelsius(double other) {
        return with(booster, other, drawLitresPerMinute, regulator, inletTap, house);
    }

    /** The same machine with a smaller or larger jet. */
    public Build withDraw(double otherLitresPerMinute) {
        return with(booster, waterCelsius, otherLitresPerMinute, regulator, inletTap, house);
    }

    /** The same machine with another regulator. */
    public Build withRegulator(RegulatorKind other) {
        return with(booster, waterCelsius, drawLitresPerMinute, other, inletTap, house);
    }

    /** The same machine with its inlet gauge elsewhere. */
    public Build withInletTap(InletTap other) {
        return with(booster, waterCelsius, drawLitresPerMinute, regulator, other, house);
    }

    /** The same machine in another house. */
    public Build in(House other) {
        return with(booster, waterCelsius, drawLitresPerMinute, regulator, inletTap, other);
    }

    private Build with(
            BoosterKind kind,
            double celsius,
            double draw,
            RegulatorKind regulated,
            InletTap tap,
            House where) {
        return new Build(
                kind,
                celsius,
                draw,
                strokeHz,
                pumpLitresPerMinute,
                slipShare,
                mainLossPsi,
                strainerLossPsi,
                filterLossPsi,
                valveSeconds,
                boosterDelaySeconds,
                hoseMlPerPsi,
                airMl,
                bleedLitresPerMinute,
                regulated,
                tap,
                where);
    }

    private static void requireWithin(String what, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            throw new IllegalArgumentException(
                    what + " is " + value + ", allowed is " + low + " to " + high);
        }
    }
}
