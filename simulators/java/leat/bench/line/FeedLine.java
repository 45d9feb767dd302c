package leat.bench.line;

/** The feed line of one machine, as a scenario handles it. Thread-confined. */
public interface FeedLine {

    /** Opens the shut-off valve and closes the booster contactor; no effect while running. */
    void start();

    /** Opens the contactor and shuts the valve; no effect while at rest. */
    void stop();

    /**
     * Turns the jet on, as it is at first: the intensifier draws while the machine runs; no effect
     * while it is on.
     */
    void cut();

    /**
     * Turns the jet off: the booster runs on, the intensifier creeps; no effect while it is off.
     */
    void pause();

    /**
     * Puts a fault into the line from now on, or changes its severity.
     *
     * @param severity 0 to 1; only whether it is above 0 counts for a fault without grades
     */
    void strike(Fault fault, double severity);

    /** Takes a fault out of the line; no effect where it is not there. */
    void repair(Fault fault);

    /**
     * Lets time pass.
     *
     * @param seconds above 0 and finite
     */
    void advance(double seconds);

    /** What is true now. */
    LineState state();

    /**
     * What of all the water moved so far is not accounted for, as a share: the model's own error.
     */
    double missingWaterShare();
}
