package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * A list of exactly two points of a straight line.
 *
 * @param each one point
 * @param example how the list is written
 */
record Pair(Block each, String example) implements Shape {

    Pair {
        requireNonNull(each, "each");
        requireNonNull(example, "example");
    }

    /** The two points; reports anything else. */
    Optional<List<Cursor>> read(Cursor at) {
        String allowed = "exactly two points, such as " + example;
        Optional<List<Cursor>> items = at.items(allowed);
        if (items.isPresent() && items.get().size() != 2) {
            at.wrong("a list of " + items.get().size() + " stands here", allowed);
            return Optional.empty();
        }
        return items;
    }

    @Override
    public <R> R tell(Teller<R> teller) {
        return teller.pair(this);
    }
}
