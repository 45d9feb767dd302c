package leat.config;

import java.util.Optional;
import org.snakeyaml.engine.v2.exceptions.Mark;

/**
 * A place in the text.
 *
 * @param line from 1
 * @param column from 1, in characters
 */
record Spot(int line, int column) {

    static final Spot START = new Spot(1, 1);

    static Spot of(Optional<Mark> mark) {
        return mark.map(m -> new Spot(m.getLine() + 1, m.getColumn() + 1)).orElse(START);
    }
}
