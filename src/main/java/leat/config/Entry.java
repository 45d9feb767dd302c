package leat.config;

/** One key that a {@link Block} may hold. */
interface Entry {

    String name();

    boolean required();

    /** What may stand under the key. */
    Shape shape();

    /** What it means, for the reference table and for editors. */
    String meaning();

    /** Hands this entry to the method that is meant for its kind. */
    <R> R tell(Teller<R> teller);

    /** Answers for each kind of entry. */
    interface Teller<R> {
        R key(Key<?> key);

        R part(Part part);
    }
}
