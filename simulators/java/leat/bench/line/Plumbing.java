package leat.bench.line;

import leat.bench.water.Units;
import leat.bench.water.Water;

/** The parts of one line, put together. Thread-confined, as its parts are. */
final class Plumbing {

    /**
     * Give of the hoses before the booster, invented; the pipe of the main adds next to nothing.
     */
    private static final double HOSE_BEFORE_BOOSTER = 2 * Units.MILLILITRE / Units.PSI;

    /** Share of the give behind the booster that lies before the filters; invented. */
    private static final double HOSE_BEFORE_FILTERS = 0.35;

    final Supply supply;
    final SupplyLine supplyLine;
    final ShutOffValve valve;
    final Coupling coupling;
    final Suction suction;
    final Booster booster;
    final Regulator regulator;
    final Air air;
    final Filters filters;
    final Intensifier intensifier;
    final Openings openings;
    final Sequence sequence;

    /** The place of the state that the inlet gauge shows. */
    final int inletSlot;

    final double inletGive;
    final double suctionGive = HOSE_BEFORE_BOOSTER;
    final double boostedGive;
    final double filteredGive;

    Plumbing(LineSettings settings, long seed) {
        Build build = settings.build();
        Chance chance = new Chance(seed);
        Water water = Water.at(build.waterCelsius());
        supply = new Supply(settings, chance);
        supplyLine = new SupplyLine(build, water);
        openings = new Openings(build, water);
        valve = new ShutOffValve(build, openings.bleed());
        coupling = new Coupling(chance);
        suction = new Suction(water);
        booster =
                switch (build.booster()) {
                    case VANE -> new VanePump(build, water);
                    case CENTRIFUGAL -> new CentrifugalPump(build);
                };
        double draw = build.drawLitresPerMinute() * Units.LITRE_PER_MINUTE;
        double workingSuction =
                settings.supplyPsi() * Units.PSI - supplyLine.loss(draw) - valve.loss(draw);
        regulator = new Regulator(settings, workingSuction, chance);
        inletSlot =
                switch (build.inletTap()) {
                    case BEFORE_VALVE -> Slot.INLET;
                    case BEHIND_VALVE -> Slot.SUCTION;
                };
        air = new Air(build);
        filters = new Filters(build);
        intensifier = new Intensifier(build, chance);
        sequence = new Sequence(build);
        inletGive = HOSE_BEFORE_BOOSTER + SupplyLine.PIPE.compliance(water);
        double hose = build.hoseMlPerPsi() * Units.MILLILITRE / Units.PSI;
        boostedGive = HOSE_BEFORE_FILTERS * hose;
        filteredGive = (1 - HOSE_BEFORE_FILTERS) * hose;
    }

    /** Water in the line, m3, more than at no pressure and without air. */
    double stored(double[] state) {
        double before = Air.BEFORE_FILTERS * Air.LAW.squeezed(state[Slot.BOOSTED]);
        double behind = Air.IN_FILTERS * Air.LAW.squeezed(state[Slot.FILTERED]);
        return inletGive * state[Slot.INLET]
                + suctionGive * state[Slot.SUCTION]
                + boostedGive * state[Slot.BOOSTED]
                + filteredGive * state[Slot.FILTERED]
                - state[Slot.AIR] * (before + behind);
    }

    /** When the next thing happens that is known beforehand, seconds. */
    double nextEdge(double now) {
        return Math.min(valve.nextEdge(now), Math.min(coupling.nextEdge(), sequence.nextEdge(now)));
    }

    /** Does what was due at a moment that has come. */
    void pass(double now) {
        sequence.pass(now);
        if (coupling.nextEdge() <= now + Sequence.JUST) {
            coupling.change(now);
        }
        if (!intensifier.isDrawing() && sequence.strokesDue(now)) {
            intensifier.begin(now);
        }
    }
}
