package leat.phase;

/** Whether the intensifier draws water, which loads the booster: jet on or jet off. */
public enum Demand {
    /** It draws: strokes are seen in the boosted pressure, or the contact says so. */
    DRAWN,
    /** It stands or creeps while the booster runs on. */
    PAUSED,
    /** It begins or ends in this second or the next one. */
    CHANGING,
    /** Strokes and pauses cannot be told apart. */
    UNKNOWN
}
