package leat.deliver;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * What is signed of an HTTP request: the signature base of RFC 9421, 2.5. One line for each covered
 * component, in the order in which they are listed, and a last one with the list and its
 * parameters. Values in the list are written as structured fields (RFC 9651). Immutable.
 *
 * @param components what is covered, each name once
 * @param parameters of the signature, in the order in which they are written
 */
record SignatureBase(List<Component> components, List<Parameter> parameters) {

    SignatureBase {
        components = List.copyOf(components);
        parameters = List.copyOf(parameters);
        if (components.stream().map(Component::name).distinct().count() < components.size()) {
            throw new IllegalArgumentException("a component is covered twice: " + components);
        }
    }

    /**
     * @param name of a header, in lower case, or of a derived component, which begins with @
     * @param value as it stands in the request, without blanks around it
     */
    record Component(String name, String value) {

        Component {
            if (!name.equals(name.toLowerCase(java.util.Locale.ROOT))) {
                throw new IllegalArgumentException("not in lower case: " + name);
            }
            if (value.chars().anyMatch(c -> c < ' ' || c > '~') || !value.strip().equals(value)) {
                throw new IllegalArgumentException(name + " would be another line: " + value);
            }
        }
    }

    /**
     * @param name its key
     * @param bare its value, as a structured field
     */
    record Parameter(String name, String bare) {

        static Parameter number(String name, long value) {
            return new Parameter(name, Long.toString(value));
        }

        /**
         * @throws IllegalArgumentException for what no string of RFC 9651, 3.3.3 can hold
         */
        static Parameter text(String name, String value) {
            return new Parameter(name, quoted(value));
        }
    }

    /** The list of what is covered, and the parameters: the value of {@code Signature-Input}. */
    String input() {
        String list =
                components.stream().map(c -> quoted(c.name())).collect(joining(" ", "(", ")"));
        return list
                + parameters.stream().map(p -> ";" + p.name() + "=" + p.bare()).collect(joining());
    }

    /** What the key is applied to; ASCII. */
    String text() {
        Stream<String> covered = components.stream().map(c -> quoted(c.name()) + ": " + c.value());
        List<String> lines = new ArrayList<>(covered.toList());
        lines.add("\"@signature-params\": " + input());
        return String.join("\n", lines);
    }

    private static String quoted(String text) {
        if (text.chars().anyMatch(c -> c < ' ' || c > '~')) {
            throw new IllegalArgumentException("not printable ASCII: " + text);
        }
        return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
    }
}
