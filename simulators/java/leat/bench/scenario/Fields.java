package leat.bench.scenario;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/**
 * The keys of one mapping in a scenario file. Whatever is wrong is added to the list of problems,
 * and a stand-in is returned, so that one pass over the file finds every mistake.
 */
final class Fields {

    private static final Pattern QUANTITY =
            Pattern.compile("(-?[0-9]+(?:\\.[0-9]+)?)\\s*([A-Za-z]*)");

    private final String file;
    private final List<String> problems;
    private final Node place;
    private final Map<String, Node> values = new LinkedHashMap<>();

    /**
     * Takes a node apart.
     *
     * @param allowed the keys that may stand here; none for names that are free
     */
    Fields(String file, Node node, Set<String> allowed, List<String> problems) {
        this.file = file;
        this.problems = problems;
        place = node;
        if (!(node instanceof MappingNode mapping)) {
            problem(node, "expected key: value pairs");
            return;
        }
        for (NodeTuple pair : mapping.getValue()) {
            if (!(pair.getKeyNode() instanceof ScalarNode key)) {
                problem(pair.getKeyNode(), "a key must be a word");
            } else if (!allowed.isEmpty() && !allowed.contains(key.getValue())) {
                String list = String.join(", ", allowed.stream().sorted().toList());
                problem(key, "unknown key \"" + key.getValue() + "\", allowed are " + list);
            } else {
                values.put(key.getValue(), pair.getValueNode());
            }
        }
    }

    void problem(Node node, String words) {
        int line = node.getStartMark().map(Mark::getLine).orElse(-1) + 1;
        problems.add(file + ":" + line + ": " + words);
    }

    void problem(String words) {
        problem(place, words);
    }

    Map<String, Node> all() {
        return values;
    }

    boolean has(String key) {
        return values.containsKey(key);
    }

    Optional<Node> node(String key) {
        Optional<Node> node = Optional.ofNullable(values.get(key));
        if (node.isEmpty()) {
            problem(key + " is missing");
        }
        return node;
    }

    String text(String key) {
        return node(key).map(node -> scalar(key, node)).orElse("");
    }

    private String scalar(String key, Node node) {
        if (node instanceof ScalarNode scalar) {
            return scalar.getValue().strip();
        }
        problem(node, key + " must be a single value");
        return "";
    }

    List<Node> list(String key) {
        Optional<Node> node = node(key);
        if (node.isPresent() && node.get() instanceof SequenceNode sequence) {
            return new ArrayList<>(sequence.getValue());
        }
        node.ifPresent(value -> problem(value, key + " must be a list"));
        return List.of();
    }

    boolean flag(String key) {
        if (!has(key)) {
            return false;
        }
        String text = text(key);
        if (!text.equals("true") && !text.equals("false")) {
            problem(values.get(key), key + " is \"" + text + "\", allowed is true or false");
        }
        return text.equals("true");
    }

    /** A plain number. */
    double number(String key, double low, double high) {
        return quantity(key, Map.of("", 1.0), low, high);
    }

    /** A pressure such as {@code 42 psi}, in psi. */
    double psi(String key, double usual, double low, double high) {
        return has(key) ? quantity(key, Map.of("psi", 1.0), low, high) : usual;
    }

    /** A time such as {@code 4 s} or {@code 2 min}. */
    Duration time(String key, double lowSeconds, double highSeconds) {
        Map<String, Double> units = Map.of("ms", 0.001, "s", 1.0, "min", 60.0);
        return Duration.ofNanos(Math.round(quantity(key, units, lowSeconds, highSeconds) * 1e9));
    }

    private double quantity(String key, Map<String, Double> units, double low, double high) {
        String text = text(key);
        if (!has(key)) {
            return low;
        }
        Matcher parts = QUANTITY.matcher(text);
        if (!parts.matches() || !units.containsKey(parts.group(2))) {
            List<String> names = units.keySet().stream().sorted().toList();
            String unit = names.equals(List.of("")) ? "no unit" : String.join(" or ", names);
            problem(values.get(key), key + " is \"" + text + "\", expected a number, " + unit);
            return low;
        }
        double value = Double.parseDouble(parts.group(1)) * units.get(parts.group(2));
        if (!(value >= low && value <= high)) {
            problem(
                    values.get(key),
                    key + " is " + text + ", allowed is " + plain(low) + " to " + plain(high));
            return low;
        }
        return value;
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
