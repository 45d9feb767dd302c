package leat.signal;

/**
 * The wall clock was set: event time jumps. No episode spans a step.
 *
 * @param atMicros event time after the step, microseconds UTC
 * @param fromMicros what event time would have been without it
 */
public record ClockStep(long atMicros, long fromMicros) implements Input {

    @Override
    public ClockStep at(long micros) {
        return new ClockStep(micros, fromMicros);
    }

    @Override
    public void to(Receiver receiver) {
        receiver.clockStep(this);
    }
}
