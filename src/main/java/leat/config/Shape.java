package leat.config;

/**
 * What may stand at one place of {@code site.yaml}. The loader reads by it, and the reference table
 * and the JSON Schema are made from it, so that the three cannot differ.
 */
interface Shape {

    /** Hands this shape to the method that is meant for its kind. */
    <R> R tell(Teller<R> teller);

    /** Answers for each kind of shape; a new kind cannot be forgotten. */
    interface Teller<R> {
        R form(Form<?> form);

        R block(Block block);

        R named(Named named);

        R pair(Pair pair);
    }
}
