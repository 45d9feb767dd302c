package leat.config;

import static java.util.Objects.requireNonNull;

/**
 * A key that a block once had. It is refused with a word on what replaces it, so that nobody whose
 * file was right has to look for what is wrong now.
 *
 * @param name the key as it was
 * @param now the key of the same block that does its work, or empty where another block's does
 * @param instead what to write in its place
 */
record Former(String name, String now, String instead) {

    Former {
        requireNonNull(name, "name");
        requireNonNull(now, "now");
        requireNonNull(instead, "instead");
    }
}
