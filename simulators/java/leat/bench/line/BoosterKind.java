package leat.bench.line;

/** The kinds of booster pump that a line may have. */
public enum BoosterKind {
    /** Rotary vane: flow goes with speed, pressure is what is put against it. */
    VANE,
    /** Centrifugal: pressure goes with the square of the speed. */
    CENTRIFUGAL
}
