package leat.measure.absence;

import java.util.Arrays;
import java.util.Optional;
import leat.signal.Keyword;

/** Why there is no figure. What each says to people stands among the phrases of {@code words}. */
public enum Absence {
    NOT_MEASURED_THEN,
    REASON_NOT_KNOWN,
    NOT_LOOKED_AT,
    NOT_BOTH_GAUGES,
    /** The machine has no transducer before the booster. */
    NO_INLET_GAUGE,
    NO_LEVEL,
    CUT_SHORT,
    NO_READINGS,
    TOO_FEW_READINGS,
    NOTHING_BEFORE_START,
    NO_READING_AT_TOP,
    INLET_TOO_LOW,
    INLET_TOO_LOW_TO_DOUBLE,
    INLET_ROSE_WITH_START,
    NOT_DOUBLED,
    NO_RUN_SIGNAL,
    DID_NOT_LEAVE_BASE,
    MOVED_BEFORE_SIGNAL,
    TOO_FEW_FOR_MEAN,
    STANDS_STILL,
    CHANGED_TOO_LITTLE,
    NOT_WHOLLY_ON_RECORD,
    GAP_IN_RISE,
    CLIMB_INTERRUPTED,
    TOO_SLOW_FOR_RISE,
    BEGAN_ABOVE,
    NOT_REACHED,
    NO_OVERSHOOT,
    TOO_SLOW_FOR_CREST,
    NOISE_WIDER_THAN_BAND,
    DID_NOT_SETTLE,
    SWING_AT_EDGE,
    LEVEL_TOO_SHORT,
    LEVEL_UNSURE,
    NO_STROKES_SEEN,
    /** Of older starts only. */
    TOO_SHORT_AFTER_CLIMB,
    STROKES_IN_CLIMB,
    STROKES_JUST_BEGUN,
    SWINGS_UNLIKE_STROKES,
    NO_READING_IN_STATE,
    TOO_SHORT_FOR_STROKES,
    TOO_SLOW_FOR_STROKES,
    NO_STROKES,
    TOO_SHORT_FOR_WANDER,
    GAP_IN_WANDER,
    TOO_SHORT_FOR_MEAN,
    GAP_AMONG_STROKES,
    STEADY_TOO_SHORT,
    TOO_SLOW_TO_SEE_STROKES,
    STOP_NOT_SEEN,
    NOTHING_BEFORE_STOP,
    TOO_LOW_TO_FALL,
    DID_NOT_FALL,
    GAP_IN_FALL,
    NEXT_START_CAME;

    /** Its name in the store and among the phrases, such as {@code no-run-signal}. */
    public String key() {
        return Keyword.of(this);
    }

    public static Optional<Absence> byKey(String key) {
        return Arrays.stream(values()).filter(absence -> absence.key().equals(key)).findFirst();
    }
}
