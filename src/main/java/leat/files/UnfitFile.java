package leat.files;

import static java.util.Objects.requireNonNull;

import java.io.IOException;

/**
 * A file that a person named is of no use. The message says what it is, without its name: that may
 * be a password in the wrong place.
 */
public final class UnfitFile extends IOException {

    private static final long serialVersionUID = 1;

    private final String wanted;

    /**
     * @param what is wrong with it
     * @param wanted what to do about it or what is allowed; empty when {@code what} says it all
     */
    public UnfitFile(String what, String wanted) {
        super(what);
        this.wanted = requireNonNull(wanted, "wanted");
    }

    /** What to do about it or what is allowed; empty when the message says it all. */
    public String wanted() {
        return wanted;
    }
}
