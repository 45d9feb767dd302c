package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * A mapping whose keys are names that the site chooses: its connections, machines, routes.
 *
 * @param noun what one of them is called
 * @param each what stands under each name
 */
record Named(String noun, Shape each) implements Shape {

    /** Names become parts of topics, ids and columns: nothing in them may need escaping. */
    static final Pattern NAME = Pattern.compile("[a-z0-9]([a-z0-9-]{0,38}[a-z0-9])?");

    private static final String RULE =
            "a name has lower-case letters, digits and dashes inside, at most 40, such as jet-1";

    Named {
        requireNonNull(noun, "noun");
        requireNonNull(each, "each");
    }

    /** Every name with what stands under it; reports bad names, repeats, and none at all. */
    Map<String, Cursor> read(Cursor at) {
        Map<String, Cursor> byName = new LinkedHashMap<>();
        if (!at.isMapping() && !at.isNothing()) {
            at.wrong(at.describe(), "one block of keys per " + noun + ", under its name");
            return byName;
        }
        for (Cursor.Child child : at.children()) {
            Cursor value = child.value();
            if (!NAME.matcher(child.name()).matches()) {
                String what = Cursor.quoteKey(child.name()) + " cannot be the name of a " + noun;
                value.wrongKey(value.path(), what, RULE);
            }
            Cursor first = byName.putIfAbsent(child.name(), value);
            if (first != null) {
                Fields.reportRepeat(value, first);
            }
        }
        if (at.children().isEmpty()) {
            at.wrongKey(at.path(), "there is no " + noun, "at least one, under a name of its own");
        }
        return byName;
    }

    /** The names alone, for suggestions. */
    List<String> names(Cursor at) {
        return at.children().stream().map(Cursor.Child::name).toList();
    }

    @Override
    public <R> R tell(Teller<R> teller) {
        return teller.named(this);
    }
}
