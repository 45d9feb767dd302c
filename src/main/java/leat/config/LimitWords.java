package leat.config;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import leat.rule.Limit;
import leat.signal.PressureUnit;

/** Limits as they are written on a command line, such as {@code rise.warning=4s}. */
public final class LimitWords {

    private static final Pattern PLAIN = Pattern.compile("[A-Za-z0-9 ./+-]+");

    private LimitWords() {}

    /**
     * A value as it would be written, such as {@code 4 s}.
     *
     * @param value in psi, seconds, psi per second, or a plain number
     * @param unit of a pressure
     */
    public static String print(Limit limit, double value, PressureUnit unit) {
        return switch (limit.dimension()) {
            case PRESSURE -> pressure(value, unit);
            case PRESSURE_RATE -> pressure(value, unit) + "/s";
            case TIME, RATIO, COUNT, FLAG -> LimitsReader.print(limit, value);
        };
    }

    private static String pressure(double psi, PressureUnit unit) {
        return Plain.number(unit.fromPsi(psi)) + " " + unit.symbol();
    }

    /**
     * Reads words of the form {@code group.name=value}; values are written as in {@code site.yaml}.
     * Whether they contradict one another is not looked at: that depends on what they are put over.
     *
     * @return in psi, seconds, psi per second, or plain numbers
     * @throws IllegalArgumentException saying everything that is wrong, a line each
     */
    public static Map<Limit, Double> read(List<String> words) {
        List<String> wrong = new ArrayList<>();
        Map<String, String> groups = new LinkedHashMap<>();
        for (String word : words) {
            split(word, wrong)
                    .ifPresent(
                            entry ->
                                    groups.merge(
                                            entry.getKey(),
                                            entry.getValue(),
                                            (a, b) -> a + ", " + b));
        }
        if (!wrong.isEmpty()) {
            throw new IllegalArgumentException(String.join(System.lineSeparator(), wrong));
        }
        StringBuilder yaml = new StringBuilder();
        groups.forEach(
                (group, keys) -> yaml.append(group).append(": { ").append(keys).append(" }\n"));
        Problems problems = new Problems("--set");
        Optional<Cursor> root = YamlText.parse(yaml.toString(), problems);
        GivenLimits given = root.map(LimitsReader::readUnchecked).orElse(GivenLimits.NONE);
        if (!problems.isClean()) {
            problems.problems()
                    .forEach(p -> wrong.add(p.path() + ": " + p.what() + "; " + p.allowed()));
            throw new IllegalArgumentException(String.join(System.lineSeparator(), wrong));
        }
        return given.values();
    }

    private static Optional<Map.Entry<String, String>> split(String word, List<String> wrong) {
        int equals = word.indexOf('=');
        String key = equals < 0 ? word : word.substring(0, equals).strip();
        if (equals < 0 || !PLAIN.matcher(word.substring(equals + 1)).matches()) {
            wrong.add("'" + word + "' is not of the form rise.warning=4s");
            return Optional.empty();
        }
        if (Limit.byKey(key).isEmpty()) {
            List<String> known = List.of(Limit.values()).stream().map(Limit::key).toList();
            wrong.add("there is no limit " + key + "." + Spelling.didYouMean(key, known));
            return Optional.empty();
        }
        int dot = key.indexOf('.');
        return Optional.of(
                Map.entry(
                        key.substring(0, dot),
                        key.substring(dot + 1) + ": " + word.substring(equals + 1).strip()));
    }
}
