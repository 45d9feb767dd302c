package leat.bench.line;

/** The kinds of booster pump that a line may have. */
public enum BoosterKind {
    /** Rotary vane: flow goes with speed, pressure is what is put against it. */
    VANE("vane"),
    /** Centrifugal: pressure goes with the square of the speed. */
    CENTRIFUGAL("centrifugal");

    private final String key;

    BoosterKind(String key) {
        this.key = key;
    }

    /** Its name in a scenario file. */
    public String key() {
        return key;
    }
}
