package leat.store;

import leat.signal.Input;

/** Takes stored inputs one by one, in the order in which they were fed. */
@FunctionalInterface
public interface InputVisitor {

    /**
     * @param seq growing; a hole means that inputs were pruned
     */
    void input(long seq, Input input);
}
