package leat.alarm;

/**
 * Why nobody is called for an alarm although it lives on. Kept beside its state, not instead of it,
 * so that what waits for somebody is still there when the hold ends. An alarm can have several.
 * Declared from the weakest to the strongest: the strongest is what is shown.
 */
public enum Hold {
    /** G: a person has put it aside for a while, with a reason. */
    SHELVED(AlarmState.SHELVED),
    /** H: leat itself holds it back while somebody works on the machine. */
    SUPPRESSED(AlarmState.SUPPRESSED),
    /** I: a person has taken the alarm out of service, until somebody puts it back. */
    OUT_OF_SERVICE(AlarmState.OUT_OF_SERVICE);

    private final AlarmState shown;

    Hold(AlarmState shown) {
        this.shown = shown;
    }

    AlarmState shown() {
        return shown;
    }
}
