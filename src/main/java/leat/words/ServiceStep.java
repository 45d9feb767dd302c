package leat.words;

/** One thing to do at a service; its words stand among the phrases. */
enum ServiceStep {
    SITE_FIRST,
    // without tools
    JET_OFF(true),
    LISTEN_COUPLING,
    SHAFT_LOOK,
    STOP_BOOSTER,
    BREAKER,
    WALK_LINE,
    JET_SIZE,
    HAND_VALVE_OPEN,
    HOSE_KINK,
    VALVE_POWERED,
    VALVE_COIL,
    VALVE_TIME(true),
    INLET_REST(true),
    INLET_RUNNING(true),
    HOUSE_TAP(true),
    OTHER_USERS(true),
    HOUSE_SUPPLY,
    BOOSTED_DIAL(true),
    BOTH_ALIKE(true),
    LINE_UNDER_PRESSURE,
    HAND_VALVE_SHUT(true),
    FILTER_LOSS(true),
    NOTE_SETTING(true),
    RAISE_SETTING,
    LOWER_SETTING,
    QUARTER_TURN,
    VENT,
    NEXT_START(true),
    DRAIN_BACK,
    DIAL_MEANWHILE,
    DIAL_COMPARE(true),
    LABELS,
    SETTINGS,
    // make safe
    ISOLATE,
    RELIEVE,
    ISOLATE_LOOP,
    // work
    STRAINER_BEHIND,
    NOTE_HOSES,
    MEASURE_GAP(true),
    MARK_COUPLING,
    CHECK_COUPLING,
    PUMP_OFF,
    SWAP_FITTINGS,
    PUMP_ON,
    TURN_BY_HAND,
    RECHECK_GAP(true),
    GUARD_ON,
    CLEAN_STRAINER,
    CLEAN_VALVE,
    CHANGE_FILTERS,
    CLEAN_REGULATOR,
    MEND_LEAK,
    CONNECTOR,
    ZERO_TRANSDUCER,
    REPLACE_TRANSDUCER,
    LOOP_TERMINALS,
    LOOP_SUPPLY(true),
    LOOP_CURRENT(true),
    CORRECT_SETTINGS,
    CHANGE_BACK,
    // and back
    WATER_ON,
    LOCKS_OFF,
    START_PURGE,
    READ_LEVEL(true),
    READ_INLET(true),
    RAN_DRY(true),
    READ_REST(true),
    REST_READINGS(true),
    TELL,
    TELL_UNKNOWN;

    private final boolean measured;

    ServiceStep() {
        this(false);
    }

    ServiceStep(boolean measured) {
        this.measured = measured;
    }

    /** Whether a figure is to be written down. */
    boolean isMeasured() {
        return measured;
    }
}
