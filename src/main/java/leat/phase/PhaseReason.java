package leat.phase;

import leat.signal.Keyword;

/** What showed that the feed line went from one phase to another. */
public enum PhaseReason {
    /** The boosted pressure left its base. */
    LEFT_BASE,
    /** The inlet was sucked empty: the booster runs. */
    INLET_SUCKED_EMPTY,
    CLIMBS_AGAIN,
    RUN_SIGNAL_ON,
    RUN_SIGNAL_OFF,
    SETTLED,
    /** The time for the climb is over, reached or not. */
    CLIMB_TIME_OVER,
    BROKE_DOWN_CLIMBING,
    BROKE_DOWN,
    /** The climb came to nothing: it was no start. */
    CAME_TO_NOTHING,
    /** The climb ended below the inlet pressure: it was no start. */
    ENDED_BELOW_INLET,
    /** No boosted pressure is left while it should run. */
    NONE_LEFT,
    DIES_AWAY,
    /** After a stop the pressure is that of a line at rest. */
    GONE,
    /** After a stop the pressure stands, at whatever level. */
    FALLS_NO_MORE,
    MINUTE_AFTER_STOP,
    /** No usable reading of the pressures that are wired. */
    NO_SIGHT,
    INLET_LOST,
    BOOSTED_LOST,
    CLOCK_SET,
    SEEN_RUNNING,
    SEEN_AT_REST;

    /** Its name in the store and among the phrases, such as {@code run-signal-on}. */
    public String key() {
        return Keyword.of(this);
    }
}
