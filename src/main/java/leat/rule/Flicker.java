package leat.rule;

import leat.wire.State;

/**
 * Whether a gauge's readings flicker by themselves: at rest, up and down again from one reading to
 * the next, by several steps of its converter. Such a gauge cannot stand still to the bit. One that
 * flickers between two steps can: its pressure need only lie between them. Thread-confined.
 */
final class Flicker {

    /** Readings that are looked at together. */
    private static final int BLOCK = 20;

    /** A block that turns round so often is loud; own choice. */
    private static final int LEAST_TURNS = 2;

    private static final double SEVERAL_STEPS = 1.5;
    private static final long LEAST_BLOCKS = 30;
    private static final double LEAST_SHARE = 0.75;

    /** Blocks after which older ones count half. */
    private static final long MOST_BLOCKS = 1000;

    private double stepPsi = Double.POSITIVE_INFINITY;
    private double changePsi;
    private int readings;
    private int turns;
    private boolean moved;
    private long blocks;
    private long loud;

    /** By how much a reading at rest differs from the one before it. */
    void changed(double psi) {
        double size = Math.abs(psi);
        if (size > 0) {
            moved = true;
            stepPsi = Math.min(stepPsi, size);
        }
        double several = SEVERAL_STEPS * stepPsi;
        if (size > several && Math.abs(changePsi) > several && psi * changePsi < 0) {
            turns++;
        }
        changePsi = psi;
        if (++readings == BLOCK) {
            endBlock();
        }
    }

    /** A block in which nothing moved says nothing: that may be the fault that is looked for. */
    private void endBlock() {
        if (moved) {
            blocks++;
            loud += turns >= LEAST_TURNS ? 1 : 0;
        }
        if (blocks > MOST_BLOCKS) {
            blocks /= 2;
            loud /= 2;
            stepPsi = Double.POSITIVE_INFINITY; // the converter may have been changed
        }
        pause();
    }

    /** The line is not at rest. */
    void pause() {
        readings = 0;
        turns = 0;
        moved = false;
        changePsi = 0;
    }

    /** True for a gauge that has been seen to flicker for long enough, nearly always. */
    boolean isUsual() {
        return loud >= LEAST_BLOCKS && loud >= LEAST_SHARE * blocks;
    }

    void keep(State state) {
        stepPsi = state.keep("stepPsi", stepPsi);
        changePsi = state.keep("changePsi", changePsi);
        readings = state.keep("readings", readings);
        turns = state.keep("turns", turns);
        moved = state.keep("moved", moved);
        blocks = state.keep("blocks", blocks);
        loud = state.keep("loud", loud);
    }
}
