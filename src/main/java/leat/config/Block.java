package leat.config;

import java.util.ArrayList;
import java.util.List;

/**
 * A mapping with fixed keys.
 *
 * @param entries its keys, in the order in which they are shown
 * @param choices groups of keys of which exactly one must be there
 * @param pairs keys that are no use without another: the first needs the second
 */
record Block(List<Entry> entries, List<List<String>> choices, List<List<String>> pairs)
        implements Shape {

    Block {
        entries = List.copyOf(entries);
        choices = List.copyOf(choices);
        pairs = List.copyOf(pairs);
    }

    static Block of(Entry... entries) {
        return new Block(List.of(entries), List.of(), List.of());
    }

    Block exactlyOneOf(String... names) {
        List<List<String>> more = new ArrayList<>(choices);
        more.add(List.of(names));
        return new Block(entries, more, pairs);
    }

    Block needs(String name, String other) {
        List<List<String>> more = new ArrayList<>(pairs);
        more.add(List.of(name, other));
        return new Block(entries, choices, more);
    }

    List<String> names() {
        return entries.stream().map(Entry::name).toList();
    }

    /** Nothing in it must be there, so that a key with nothing under it is the same as none. */
    boolean mayBeEmpty() {
        return choices.isEmpty() && entries.stream().noneMatch(Entry::required);
    }

    @Override
    public <R> R tell(Teller<R> teller) {
        return teller.block(this);
    }
}
