package leat.config;

import java.util.ArrayList;
import java.util.List;

/**
 * A mapping with fixed keys.
 *
 * @param entries its keys, in the order in which they are shown
 * @param choices groups of keys of which exactly one must be there
 * @param pairs keys that are no use without another: the first needs the second
 * @param former keys that it once had
 */
record Block(
        List<Entry> entries,
        List<List<String>> choices,
        List<List<String>> pairs,
        List<Former> former)
        implements Shape {

    Block {
        entries = List.copyOf(entries);
        choices = List.copyOf(choices);
        pairs = List.copyOf(pairs);
        former = List.copyOf(former);
    }

    static Block of(Entry... entries) {
        return new Block(List.of(entries), List.of(), List.of(), List.of());
    }

    Block exactlyOneOf(String... names) {
        List<List<String>> more = new ArrayList<>(choices);
        more.add(List.of(names));
        return new Block(entries, more, pairs, former);
    }

    Block needs(String name, String other) {
        List<List<String>> more = new ArrayList<>(pairs);
        more.add(List.of(name, other));
        return new Block(entries, choices, more, former);
    }

    Block formerly(Former... names) {
        return new Block(entries, choices, pairs, List.of(names));
    }

    /** With another entry in the place of that of its name, or with one more. */
    Block with(Entry entry) {
        List<Entry> others =
                new ArrayList<>(
                        entries.stream().filter(e -> !e.name().equals(entry.name())).toList());
        others.add(entry);
        return new Block(others, choices, pairs, former);
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
