package leat.alarm;

/**
 * What happens to an alarm and, where a person did it, by whom and why. Immutable.
 *
 * @param event the step of its life
 * @param atMicros event time, microseconds UTC
 * @param by the person; empty where nobody did it
 * @param why the reason that was given; empty where none is needed
 */
record Act(AlarmEvent event, long atMicros, String by, String why) {}
