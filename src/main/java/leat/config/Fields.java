package leat.config;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A mapping read by its {@link Block}. Reading reports at once everything that is wrong with its
 * keys and its single values: what is unknown, repeated, missing, contradictory, or badly written.
 * The parts below it are left to whoever asks for them. Thread-confined.
 */
final class Fields {

    private final Cursor at;
    private final Map<String, Cursor> byName = new LinkedHashMap<>();
    private final Map<Key<?>, Object> values = new HashMap<>();

    /** Keys that are missing because they stand there under a former name, which is reported. */
    private final Set<String> renamed = new HashSet<>();

    private final boolean whole;

    private Fields(Cursor at, Block block) {
        this.at = at;
        if (!at.isMapping() && !at.isNothing()) {
            at.wrong(at.describe(), "a block of keys: " + String.join(", ", block.names()));
            whole = false;
            return;
        }
        sortIn(block);
        boolean complete = hasAllRequired(block);
        boolean decided = keepsToItsChoices(block);
        boolean readable = readValues(block);
        whole = complete && decided && readable && renamed.isEmpty();
    }

    static Fields of(Cursor at, Block block) {
        return new Fields(at, block);
    }

    static void reportRepeat(Cursor again, Cursor first) {
        again.wrongKey(
                again.path(),
                "stands twice, here and at line " + first.keySpot().line(),
                "each key once");
    }

    /** Every key of this mapping is there and its value can be read. */
    boolean isWhole() {
        return whole;
    }

    boolean has(String name) {
        return byName.containsKey(name);
    }

    /** What stands under a key, if the key is there. */
    Optional<Cursor> at(String name) {
        return Optional.ofNullable(byName.get(name));
    }

    /** The value, or its default; empty when it is not there or was reported as wrong. */
    @SuppressWarnings("unchecked") // only readValue puts it in, from the form of the same key
    <T> Optional<T> maybe(Key<T> key) {
        return Optional.ofNullable((T) values.get(key));
    }

    /**
     * The value of a key that is required or has a default, of a mapping that is whole.
     *
     * @throws IllegalStateException when asked of a mapping that is not whole
     */
    <T> T the(Key<T> key) {
        return maybe(key)
                .orElseThrow(() -> new IllegalStateException(at.join(key.name()) + " not read"));
    }

    private void sortIn(Block block) {
        List<Cursor.Child> unknown = new ArrayList<>();
        for (Cursor.Child child : at.children()) {
            if (!block.names().contains(child.name())) {
                unknown.add(child);
                continue;
            }
            Cursor first = byName.putIfAbsent(child.name(), child.value());
            if (first != null) {
                reportRepeat(child.value(), first);
            }
        }
        unknown.forEach(child -> unknownKey(child, block));
    }

    /** What stands under a misspelt key is checked as if it were spelt well. */
    private void unknownKey(Cursor.Child child, Block block) {
        Optional<Former> former =
                block.former().stream().filter(f -> f.name().equals(child.name())).findFirst();
        if (former.isPresent()) {
            formerKey(child, former.get());
            return;
        }
        List<String> free = new ArrayList<>(block.names());
        free.removeAll(byName.keySet());
        Optional<String> meant = Spelling.closest(child.name(), free);
        Cursor value = child.value();
        if (startsWithDigit(child.name())) {
            value.wrongKey(
                    value.path(),
                    "a number stands where a key is due",
                    "write a decimal point, not a comma: a comma ends the value before it");
            return;
        }
        value.wrongKey(
                value.path(),
                "there is no such key as " + Cursor.quoteKey(child.name()) + " here",
                "allowed: "
                        + String.join(", ", block.names())
                        + "."
                        + meant.map(m -> " Did you mean " + m + "?").orElse(""));
        meant.ifPresent(name -> byName.put(name, value.renamed(at.join(name))));
    }

    private void formerKey(Cursor.Child child, Former former) {
        renamed.add(former.now());
        child.value()
                .wrongKey(
                        child.value().path(),
                        "there is no key " + Cursor.quoteKey(former.name()) + " any more",
                        "write " + former.instead());
    }

    private static boolean startsWithDigit(String name) {
        return !name.isEmpty() && Character.isDigit(name.charAt(0));
    }

    private boolean hasAllRequired(Block block) {
        boolean complete = true;
        for (Entry entry : block.entries()) {
            if (entry.required() && !has(entry.name())) {
                complete = false;
                if (!renamed.contains(entry.name())) {
                    at.wrongKey(at.join(entry.name()), "is missing", entry.meaning());
                }
            }
        }
        return complete;
    }

    private boolean keepsToItsChoices(Block block) {
        boolean decided = true;
        for (List<String> choice : block.choices()) {
            List<String> there = choice.stream().filter(this::has).toList();
            if (there.isEmpty()) {
                decided = false;
                at.wrongKey(
                        at.path(), "one key is missing", "one of: " + String.join(", ", choice));
            }
            for (int i = 1; i < there.size(); i++) {
                decided = false;
                Cursor extra = byName.get(there.get(i));
                extra.wrongKey(
                        extra.path(),
                        "stands beside " + there.get(0),
                        "only one of: " + String.join(", ", choice));
            }
        }
        for (List<String> pair : block.pairs()) {
            if (has(pair.get(0)) && !has(pair.get(1))) {
                decided = false;
                Cursor alone = byName.get(pair.get(0));
                alone.wrongKey(alone.path(), "is no use alone", "add " + pair.get(1));
            }
        }
        return decided;
    }

    private boolean readValues(Block block) {
        boolean readable = true;
        Entry.Teller<Boolean> reading =
                new Entry.Teller<>() {
                    @Override
                    public Boolean key(Key<?> key) {
                        return readValue(key);
                    }

                    @Override
                    public Boolean part(Part part) {
                        return true;
                    }
                };
        for (Entry entry : block.entries()) {
            readable &= entry.tell(reading);
        }
        return readable;
    }

    private <T> boolean readValue(Key<T> key) {
        Optional<Cursor> there = at(key.name());
        Optional<T> value = there.isPresent() ? key.form().read(there.get()) : key.fallback();
        value.ifPresent(v -> values.put(key, v));
        return there.isEmpty() || value.isPresent();
    }
}
