package leat.bench.scenario;

import java.time.Duration;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
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
            Pattern.compile("(-?[0-9]+(?:\\.[0-9]+)?)\\s*([A-Za-z%/]*)");

    private static final double LONGEST_GROWTH_SECONDS = 520 * 7 * 86_400.0;
    private static final Map<String, Double> NO_UNIT = Map.of("", 1.0);
    private static final Map<String, Double> TIMES = new LinkedHashMap<>();

    static {
        TIMES.put("ms", 0.001);
        TIMES.put("s", 1.0);
        TIMES.put("min", 60.0);
        TIMES.put("h", 3_600.0);
        TIMES.put("d", 86_400.0);
        TIMES.put("w", 7 * 86_400.0);
    }

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

    /** A text that may be left out. */
    String textOr(String key, String usual) {
        return has(key) ? text(key) : usual;
    }

    /** The keys of a mapping that may be left out. */
    Optional<Fields> below(String key, Set<String> allowed) {
        return has(key)
                ? node(key).map(node -> new Fields(file, node, allowed, problems))
                : Optional.empty();
    }

    /** Says what is wrong with the value of a key. */
    void problemAt(String key, String words) {
        problem(values.getOrDefault(key, place), words);
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
        return quantity(key, NO_UNIT, low, high);
    }

    /** A plain number that may be left out. */
    double number(String key, double usual, double low, double high) {
        return has(key) ? quantity(key, NO_UNIT, low, high) : usual;
    }

    /** A number without a fraction that may be left out. */
    int whole(String key, int usual, int low, int high) {
        double number = number(key, usual, low, high);
        if (number != Math.rint(number)) {
            problem(values.get(key), key + " is " + text(key) + ", expected a whole number");
        }
        return (int) Math.round(number);
    }

    /** A pressure such as {@code 42 psi}, in psi. */
    double psi(String key, double usual, double low, double high) {
        return in("psi", key, usual, low, high);
    }

    /** A number with its one unit, which may be left out altogether. */
    double in(String unit, String key, double usual, double low, double high) {
        return has(key) ? quantity(key, Map.of(unit, 1.0), low, high) : usual;
    }

    /** A time such as {@code 4 s} or {@code 12 w}. */
    Duration time(String key, double lowSeconds, double highSeconds) {
        return seconds(quantity(key, TIMES, lowSeconds, highSeconds));
    }

    /** A time that may be left out. */
    Duration time(String key, Duration usual, double lowSeconds, double highSeconds) {
        return has(key) ? time(key, lowSeconds, highSeconds) : usual;
    }

    private static Duration seconds(double seconds) {
        return Duration.ofNanos(Math.round(seconds * 1e9));
    }

    /** A time of day such as {@code 07:00}. */
    LocalTime clock(String key, LocalTime usual) {
        String text = has(key) ? text(key) : usual.toString();
        if (text.matches("([01][0-9]|2[0-3]):[0-5][0-9]")) {
            return LocalTime.parse(text);
        }
        problem(values.get(key), key + " is \"" + text + "\", expected a time such as 07:00");
        return usual;
    }

    /** A size that stays, {@code 0.5}, or grows, {@code 0.1 to 0.8}; the other keys say how. */
    Course course(String key, double low, double high) {
        String text = text(key);
        String[] ends = text.split("\\s+to\\s+", -1);
        if (!has(key) || ends.length != 2) {
            Stream.of("over", "growth")
                    .filter(this::has)
                    .forEach(
                            extra ->
                                    problem(
                                            values.get(extra),
                                            extra
                                                    + " needs a size that grows, such as "
                                                    + key
                                                    + ": 0.1 to 0.8"));
            return Course.steady(has(key) ? number(key, low, high) : low);
        }
        double from = quantity(key, ends[0], NO_UNIT, low, high);
        double to = quantity(key, ends[1], NO_UNIT, low, high);
        Duration over = time("over", 1, LONGEST_GROWTH_SECONDS);
        try {
            return new Course(from, to, over, growth());
        } catch (IllegalArgumentException e) {
            problem(values.get(key), e.getMessage());
            return Course.steady(low);
        }
    }

    private Course.Growth growth() {
        String text = has("growth") ? text("growth") : "linear";
        if (!text.equals("linear") && !text.equals("exponential")) {
            problem(
                    values.get("growth"),
                    "growth is \"" + text + "\", allowed is linear or exponential");
        }
        return text.equals("exponential") ? Course.Growth.EXPONENTIAL : Course.Growth.LINEAR;
    }

    private double quantity(String key, Map<String, Double> units, double low, double high) {
        String text = text(key);
        return has(key) ? quantity(key, text, units, low, high) : low;
    }

    private double quantity(
            String key, String text, Map<String, Double> units, double low, double high) {
        Matcher parts = QUANTITY.matcher(text);
        if (!parts.matches() || !units.containsKey(parts.group(2))) {
            List<String> names = List.copyOf(units.keySet());
            String unit = names.equals(List.of("")) ? "no unit" : orList(names);
            problem(values.get(key), key + " is \"" + text + "\", expected a number, " + unit);
            return low;
        }
        double value = Double.parseDouble(parts.group(1)) * units.get(parts.group(2));
        if (!(value >= low && value <= high)) {
            String unit = units.size() == 1 ? List.copyOf(units.keySet()).get(0) : "s";
            problem(
                    values.get(key),
                    (key + " is " + text + ", allowed is " + plain(low) + " to " + plain(high))
                            + (unit.isEmpty() ? "" : " " + unit));
            return low;
        }
        return value;
    }

    private static String orList(List<String> names) {
        int last = names.size() - 1;
        return last == 0
                ? names.get(0)
                : String.join(", ", names.subList(0, last)) + " or " + names.get(last);
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
