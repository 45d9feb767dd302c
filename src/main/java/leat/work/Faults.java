package leat.work;

/**
 * The bugs that a worker has met and survived. Immutable.
 *
 * @param count steps that threw
 * @param first the first of them in short; empty if none
 * @param last the last of them in short; empty if none
 */
public record Faults(long count, String first, String last) {

    /** All is well so far. */
    public static final Faults NONE = new Faults(0, "", "");

    Faults and(Throwable fault) {
        String words = fault.toString();
        return new Faults(count + 1, count == 0 ? words : first, words);
    }
}
