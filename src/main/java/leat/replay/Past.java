package leat.replay;

import java.util.function.Consumer;
import leat.signal.Input;

/** The inputs of one machine, that can be read again and again. */
@FunctionalInterface
public interface Past {

    /** Hands out every input, in the order in which it was or would have been fed. */
    void read(Consumer<Input> into);
}
