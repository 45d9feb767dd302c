package leat.cli;

import java.util.Iterator;
import leat.diagnose.Cause;

/** What can be said to have been the matter, as words for a help text. */
final class Causes implements Iterable<String> {

    @Override
    public Iterator<String> iterator() {
        return Cause.findable().stream().map(Cause::key).iterator();
    }
}
