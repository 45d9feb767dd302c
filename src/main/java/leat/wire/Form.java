package leat.wire;

import java.util.Optional;

/** How the values of one type are written down and taken up. Stateless. */
interface Form {

    /** Tag and value. */
    void write(Written to, Object value);

    /**
     * @throws IllegalArgumentException when what stands there is not of this type
     */
    Object read(Taken from);

    /** What stands for it in a record that lacks it; empty when nothing can. */
    default Optional<Object> empty() {
        return Optional.empty();
    }
}
