package leat.bench.line;

import leat.bench.water.Units;

/**
 * What the intensifier draws: even along its way, next to nothing while its piston turns round, and
 * more just after. With the jet off it goes on in slow strokes. How far the piston is follows from
 * what was drawn, so that strokes slow down where pressure fails and are never locked to a
 * sampling. Thread-confined. All figures invented.
 */
final class Intensifier {

    private static final double TAKE_UP_SECONDS = 0.15;

    /** What its seals let by while the jet is off, as a share of what the jet takes. */
    private static final double CREEP = 0.06;

    /** How long it takes to turn round, and the part of it in which the flow stops or comes. */
    private static final double DIP_SECONDS = 0.3;

    private static final double DIP_EDGE_SECONDS = 0.06;

    /** What it draws more while it fills up again what the reversal left. */
    private static final double SURGE = 0.5;

    private static final double SURGE_SECONDS = 0.4;
    private static final double SHALLOWEST_DIP = 0.75;
    private static final double DEEPEST_DIP = 0.98;
    private static final double IRREGULARITY = 0.04;

    /** One side of the intensifier draws a little less. */
    private static final double LAME_SIDE = 0.04;

    /** Below this the piston is driven ever more slowly. */
    private static final double FULL_ABOVE = 15 * Units.PSI;

    private final Chance chance;
    private final double draw;
    private final double strokeVolume;
    private long stroke;
    private double reversedAt = Double.NEGATIVE_INFINITY;
    private double depth;
    private double length = 1;
    private boolean drawing;
    private boolean jet = true;

    Intensifier(Build build, Chance chance) {
        this.chance = chance;
        draw = build.drawLitresPerMinute() * Units.LITRE_PER_MINUTE;
        strokeVolume = draw / build.strokeHz();
    }

    void begin(double now) {
        drawing = true;
        reverse(now);
    }

    void end() {
        drawing = false;
    }

    boolean isDrawing() {
        return drawing;
    }

    /** Turns the jet on or off. */
    void open(boolean on) {
        jet = on;
    }

    boolean isOpen() {
        return jet;
    }

    /** Whether the jet is on and has water behind it. */
    boolean isCutting() {
        return drawing && jet;
    }

    /** The piston is at its end and turns round. */
    void reverse(double now) {
        stroke++;
        reversedAt = now;
        depth = chance.draw(Chance.Stream.STROKE_DEPTH, stroke, SHALLOWEST_DIP, DEEPEST_DIP);
        length =
                chance.draw(
                        Chance.Stream.STROKE_LENGTH, stroke, 1 - IRREGULARITY, 1 + IRREGULARITY);
    }

    /** How fast it takes up or lets go its work, 1/s; {@code load} is 0 to 1. */
    double loading(double load) {
        double wanted = jet ? 1 : CREEP;
        return ((drawing ? wanted : 0) - load) / TAKE_UP_SECONDS;
    }

    /** Flow that it draws, m3/s, 0 or more. */
    double flow(double load, double filtered, double now) {
        double since = now - reversedAt;
        double turning =
                Smooth.step(since / DIP_EDGE_SECONDS)
                        - Smooth.step(1 + (since - DIP_SECONDS) / DIP_EDGE_SECONDS);
        double shape =
                1 - depth * turning + SURGE * Smooth.hump((since - DIP_SECONDS) / SURGE_SECONDS);
        double side = stroke % 2 == 0 ? 1 : 1 - LAME_SIDE;
        return Math.max(load, 0) * draw * side * shape * Smooth.step(filtered / FULL_ABOVE);
    }

    /** How fast its piston goes, strokes a second. */
    double piston(double flow) {
        return flow / (strokeVolume * length);
    }
}
