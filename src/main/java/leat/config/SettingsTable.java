package leat.config;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The reference of every setting as a Markdown page with a table for each group. Thread-safe: each
 * call makes its own page.
 */
final class SettingsTable {

    private static final String HEAD =
            """
            # Settings of site.yaml

            `leat settings` prints the same in a terminal, `leat settings limits.rise` or
            `leat settings mail` a part of it. `leat check site.yaml` reports every mistake in a file
            with line and column. Editors that know JSON Schema complete the keys from
            `site.schema.json`.

            - A name in `<...>` is one that the site chooses. Each of the names in `{...}` has the same
              keys below it. `[]` is each point of a list.
            - Pressures are written with their unit (`psi`, `bar`, `kPa`), times too (`ms`, `s`, `min`,
              `h`, `d`): `90 psi`, `30 s`. psi, bar or a mixture give the same judgement.
            - `required` must stand in the file. `none` may be left out and has no default.
            - Every key of `limits` may also stand under one machine and holds for that machine alone:
              `machines.jet-1.limits.rise.warning`.
            - A default that is "common practice" has no published source. Expect to adapt it.

            This page is made from the declarations that leat reads `site.yaml` by.

            """;

    private final Map<String, String> letters = new LinkedHashMap<>();

    private SettingsTable() {}

    /** The page, each line ended by a line feed. */
    static String markdown() {
        return new SettingsTable().page();
    }

    private String page() {
        StringBuilder tables = new StringBuilder();
        SettingsReference.groups().forEach(group -> table(tables, group));
        StringBuilder page = new StringBuilder(HEAD).append("Column *from* says where a default ");
        page.append("comes from:\n\n| from | where the default comes from |\n|---|---|\n");
        letters.forEach((origin, letter) -> row(page, List.of(letter, origin)));
        return page.append(tables).toString();
    }

    private void table(StringBuilder page, SettingsGroup group) {
        page.append("\n## `").append(group.path()).append("`\n\n");
        page.append(sentence(group.head())).append('\n');
        if (group.settings().isEmpty()) {
            return;
        }
        page.append(
                "\n| setting | default | allowed | what it is | from |\n|---|---|---|---|---|\n");
        for (Setting setting : group.settings()) {
            List<String> cells = new ArrayList<>();
            cells.add("`" + setting.name() + "`");
            cells.add(setting.fallback().map(d -> "`" + d + "`").orElse(setting.absent()));
            cells.add(setting.allowed());
            cells.add(setting.meaning());
            cells.add(letter(setting.origin()));
            row(page, cells);
        }
    }

    private static String sentence(Setting head) {
        String meaning = head.meaning();
        String first = meaning.substring(0, 1).toUpperCase(Locale.ROOT);
        String absent = head.absent().equals("none") ? "" : " (" + head.absent() + ")";
        return first + meaning.substring(1) + absent + ".";
    }

    private String letter(String origin) {
        return origin.isEmpty()
                ? ""
                : letters.computeIfAbsent(
                        origin, o -> String.valueOf((char) ('a' + letters.size())));
    }

    private static void row(StringBuilder page, List<String> cells) {
        for (String cell : cells) {
            page.append("| ").append(cell.replace("|", "\\|")).append(' ');
        }
        page.append("|\n");
    }
}
