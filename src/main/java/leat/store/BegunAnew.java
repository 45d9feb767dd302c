package leat.store;

import static java.util.Objects.requireNonNull;

/**
 * What became of what was stored when a new file was begun while leat runs. Immutable.
 *
 * @param isCarried everything but readings and snapshots is in the new file; else it knows of no
 *     alarm
 * @param words the same for a person, with what was moved aside
 */
public record BegunAnew(boolean isCarried, String words) {

    public BegunAnew {
        requireNonNull(words, "words");
    }
}
