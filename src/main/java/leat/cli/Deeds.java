package leat.cli;

import java.util.Iterator;
import java.util.List;
import leat.signal.Order.Entry;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** What can be said to have been done to a machine, as a word of the command line. */
final class Deeds implements ITypeConverter<Entry>, Iterable<String> {

    /** Without what has a command of its own. */
    private static final List<Entry> ALL =
            List.of(
                    Entry.SERVICED,
                    Entry.PUMP_REPLACED,
                    Entry.COUPLING_GAP,
                    Entry.REGULATOR_TURNED,
                    Entry.FILTER_CHANGED,
                    Entry.STRAINER_CLEANED,
                    Entry.AIR_PURGED,
                    Entry.TRANSDUCER_CHANGED);

    @Override
    public Entry convert(String word) {
        if (!contains(word)) {
            throw new TypeConversionException(
                    "'"
                            + word
                            + "' is nothing that can be done; known: "
                            + String.join(", ", this));
        }
        return Entry.byKey(word).orElseThrow();
    }

    static boolean contains(String word) {
        return Entry.byKey(word).filter(ALL::contains).isPresent();
    }

    @Override
    public Iterator<String> iterator() {
        return ALL.stream().map(Entry::key).iterator();
    }
}
