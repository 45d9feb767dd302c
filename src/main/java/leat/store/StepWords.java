package leat.store;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Words in braces that stand for a longer piece of SQL in the steps of a {@link Schema}. */
final class StepWords {

    private static final Pattern WORD = Pattern.compile("\\{([a-z]+) ([^{}]+)\\}");

    private static final Map<String, String> SQL = new LinkedHashMap<>();

    static {
        // A time as ISO text with microseconds
        SQL.put(
                "utc",
                "strftime('%Y-%m-%dT%H:%M:%S', (x) / 1000000, 'unixepoch')"
                        + " || printf('.%06dZ', (x) % 1000000)");
        // A number as JSON, with all its bits
        SQL.put(
                "real",
                "json(iif(x = 0, iif(atan2(x, -1) < 0, '-0.0', '0.0'), printf('%!.17g', x)))");
        // A text as JSON, be it kept as text or, because it is no Unicode, as a blob of UTF-16BE
        SQL.put(
                "text",
                "json(CASE typeof(x) WHEN 'blob' THEN '\"' || ("
                        + "WITH RECURSIVE u(at, said) AS (SELECT 1, '' UNION ALL"
                        + " SELECT at + 4, said || '\\u' || substr(hex(x), at, 4) FROM u"
                        + " WHERE at <= length(hex(x)))"
                        + " SELECT said FROM u ORDER BY at DESC LIMIT 1) || '\"'"
                        + " ELSE json_quote(x) END)");
        // Why there is no figure: its key as JSON, for the sentence of before version 5
        SQL.put(
                "absence",
                "json_quote(CASE WHEN x LIKE 'cut short: %' THEN 'cut-short' ELSE coalesce("
                        + "(SELECT word FROM absence_words WHERE said = x), 'reason-not-known') END)");
        // The three columns of a figure as JSON
        SQL.put(
                "figure",
                "json(CASE WHEN x IS NULL THEN {text x_absent}"
                        + " WHEN x_uncertainty IS NULL THEN json_array({real x})"
                        + " ELSE json_array({real x}, {real x_uncertainty}) END)");
    }

    private StepWords() {}

    static String expand(String sql) {
        Matcher word = WORD.matcher(sql);
        if (!word.find()) {
            return sql;
        }
        return expand(
                word.replaceAll(
                        found ->
                                Matcher.quoteReplacement(
                                        SQL.get(found.group(1))
                                                .replaceAll(
                                                        "\\bx(?=\\b|_)",
                                                        Matcher.quoteReplacement(
                                                                found.group(2))))));
    }
}
