package leat.cli;

import java.util.Arrays;
import java.util.Iterator;
import leat.diagnose.Cause;

/** What can be said to have been the matter, as words for a help text. */
final class Causes implements Iterable<String> {

    @Override
    public Iterator<String> iterator() {
        return Arrays.stream(Cause.values())
                .filter(cause -> cause != Cause.UNKNOWN)
                .map(Cause::key)
                .iterator();
    }
}
