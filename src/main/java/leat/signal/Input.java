package leat.signal;

/**
 * Everything that a watch can be fed. Inputs are stored in the order in which they were fed, and a
 * replay feeds them in that order again.
 */
public sealed interface Input
        permits Reading, Tick, SourceLost, SourceBack, ClockStep, Instruction {

    /** Event time, microseconds since 1970-01-01T00:00:00Z. */
    long atMicros();

    /** The same at another time. */
    Input at(long micros);

    /** Hands this input to the method of {@code receiver} that is meant for its kind. */
    void to(Receiver receiver);

    /** Takes each kind of input; a new kind cannot be forgotten. */
    interface Receiver {
        void reading(Reading reading);

        void tick(Tick tick);

        void sourceLost(SourceLost lost);

        void sourceBack(SourceBack back);

        void clockStep(ClockStep step);

        void instruction(Instruction instruction);
    }
}
