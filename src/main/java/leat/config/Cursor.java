package leat.config;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/**
 * One value in the file: it knows its path, where it stands and where its key stands, and reports
 * what is wrong with it. Thread-confined, like the problems it reports to.
 */
final class Cursor {

    private static final Set<String> NOTHING = Set.of("", "~", "null", "Null", "NULL");
    private static final int LONGEST_QUOTE = 60;

    private final Node node;
    private final String path;
    private final Spot keySpot;
    private final Problems problems;

    private Cursor(Node node, String path, Spot keySpot, Problems problems) {
        this.node = node;
        this.path = path;
        this.keySpot = keySpot;
        this.problems = problems;
    }

    static Cursor root(Node node, Problems problems) {
        return new Cursor(node, "", Spot.START, problems);
    }

    String path() {
        return path;
    }

    /** Where the value stands; where its key stands if there is no value. */
    Spot spot() {
        return isNothing() ? keySpot : Spot.of(node.getStartMark());
    }

    Spot keySpot() {
        return keySpot;
    }

    /** Nothing was written after the key. */
    boolean isNothing() {
        return node instanceof ScalarNode scalar
                && scalar.isPlain()
                && NOTHING.contains(scalar.getValue());
    }

    boolean isScalar() {
        return node instanceof ScalarNode;
    }

    boolean isMapping() {
        return node instanceof MappingNode;
    }

    /** A scalar in quotes: always text, never a number. */
    boolean isQuoted() {
        return node instanceof ScalarNode scalar && !scalar.isPlain();
    }

    /** The scalar as it was written; reports when there is none. */
    Optional<String> text(String allowed) {
        if (node instanceof ScalarNode scalar && !isNothing()) {
            return Optional.of(scalar.getValue());
        }
        wrong(describe(), allowed);
        return Optional.empty();
    }

    /** The items of a list; reports when there is none. */
    Optional<List<Cursor>> items(String allowed) {
        if (!(node instanceof SequenceNode sequence)) {
            wrong(describe(), allowed);
            return Optional.empty();
        }
        List<Cursor> items = new ArrayList<>();
        for (Node item : sequence.getValue()) {
            String itemPath = path + "[" + items.size() + "]";
            items.add(new Cursor(item, itemPath, Spot.of(item.getStartMark()), problems));
        }
        return Optional.of(items);
    }

    /** The keys of a mapping with their values, repeats included; empty for anything else. */
    List<Child> children() {
        if (!(node instanceof MappingNode mapping)) {
            return List.of();
        }
        List<Child> children = new ArrayList<>();
        for (NodeTuple tuple : mapping.getValue()) {
            Node key = tuple.getKeyNode();
            Spot spot = Spot.of(key.getStartMark());
            if (key instanceof ScalarNode scalar) {
                String name = scalar.getValue();
                Cursor value = new Cursor(tuple.getValueNode(), join(name), spot, problems);
                children.add(new Child(name, value));
            } else {
                problems.wrong(spot, path, "a key must be one word", "");
            }
        }
        return children;
    }

    /** The same place under another name, to go on checking below a misspelt key. */
    Cursor renamed(String newPath) {
        return new Cursor(node, newPath, keySpot, problems);
    }

    /** What stands below under these keys, one below the other, as far down as they are there. */
    Cursor below(String... names) {
        Cursor place = this;
        for (String name : names) {
            Cursor from = place;
            place =
                    from.children().stream()
                            .filter(c -> c.name().equals(name))
                            .map(Child::value)
                            .findFirst()
                            .orElse(from);
        }
        return place;
    }

    /** The path of a key below this place. */
    String join(String name) {
        return path.isEmpty() ? plainKey(name) : path + "." + plainKey(name);
    }

    /** Reports the value. */
    void wrong(String what, String allowed) {
        problems.wrong(spot(), path, what, allowed);
    }

    /** Reports the key, or something missing below it. */
    void wrongKey(String atPath, String what, String allowed) {
        problems.wrong(keySpot, atPath, what, allowed);
    }

    void doubtful(String what, String allowed) {
        problems.doubtful(spot(), path, what, allowed);
    }

    void doubtfulKey(String what, String allowed) {
        problems.doubtful(keySpot, path, what, allowed);
    }

    /** What stands here, for a message on a value of the wrong kind. */
    String describe() {
        if (isNothing()) {
            return "nothing stands here";
        }
        if (node instanceof MappingNode) {
            return "keys stand here, where one value is due";
        }
        if (node instanceof SequenceNode) {
            return "a list stands here";
        }
        return quote(((ScalarNode) node).getValue()) + " stands here";
    }

    /**
     * A key in quotes, cut where it stops looking like one: what follows may be a value that lost
     * its colon.
     */
    static String quoteKey(String name) {
        return "\"" + plainKey(name) + "\"";
    }

    private static String plainKey(String name) {
        int end = 0;
        while (end < name.length() && isOfKeys(name.charAt(end))) {
            end++;
        }
        return end == name.length() ? name : name.substring(0, end) + "...";
    }

    private static boolean isOfKeys(char c) {
        return Character.isLetterOrDigit(c) || c == '_' || c == '-';
    }

    /** Text in quotes, on one line, cut when it is long. */
    static String quote(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        text.codePoints()
                .limit(LONGEST_QUOTE)
                .forEach(c -> quoted.appendCodePoint(Character.isISOControl(c) ? ' ' : c));
        if (text.codePointCount(0, text.length()) > LONGEST_QUOTE) {
            quoted.append("...");
        }
        return quoted.append('"').toString();
    }

    /**
     * A key and its value.
     *
     * @param name the key as it was written
     * @param value what stands under it
     */
    record Child(String name, Cursor value) {}
}
