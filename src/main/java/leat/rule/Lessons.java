package leat.rule;

/** Told of what is learned of a machine. */
public interface Lessons {

    /** Learning has begun, or one more good start is known. */
    void progressed(Learning learning);

    /** Enough good starts are known: from the next start on the machine is judged by it too. */
    void learned(Baseline baseline);
}
