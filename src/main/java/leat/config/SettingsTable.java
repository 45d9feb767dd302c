package leat.config;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The reference of every setting, made from the declarations that the loader reads by. Thread-safe:
 * each call makes its own.
 */
public final class SettingsTable {

    private static final String HEAD =
            """
            | setting | unit or kind | default | min | max | what it is | where the default comes from |
            |---|---|---|---|---|---|---|
            """;

    private final Set<Block> shown = new HashSet<>();

    private SettingsTable() {}

    /**
     * Every setting in the order of the file, by the group that it stands in: the first key of its
     * path.
     */
    public static Map<String, List<Setting>> groups() {
        Map<String, List<Setting>> groups = new LinkedHashMap<>();
        for (Setting setting : new SettingsTable().block("", SiteReader.BLOCK)) {
            groups.computeIfAbsent(setting.path().split("\\.")[0], g -> new ArrayList<>())
                    .add(setting);
        }
        return groups;
    }

    /** One heading and one Markdown table for each group, each line ended by a line feed. */
    public static String markdown() {
        StringBuilder text = new StringBuilder();
        groups().forEach(
                        (group, settings) -> {
                            text.append("\n## ").append(group).append("\n\n").append(HEAD);
                            settings.forEach(setting -> text.append(row(setting)));
                        });
        return text.toString();
    }

    private List<Setting> block(String path, Block block) {
        List<Setting> rows = new ArrayList<>();
        shown.add(block);
        for (Map.Entry<Shape, List<Entry>> alike : alike(block).entrySet()) {
            List<String> names = new ArrayList<>();
            for (Entry entry : alike.getValue()) {
                names.add(entry.name());
                rows.add(entry.tell(new OwnRow(path + entry.name(), block)));
            }
            String name = names.size() == 1 ? names.get(0) : "{" + String.join(",", names) + "}";
            rows.addAll(alike.getKey().tell(new RowsBelow(path + name)));
        }
        return rows;
    }

    /** Parts under which the same may stand share the rows of what is below them. */
    private static Map<Shape, List<Entry>> alike(Block block) {
        Entry.Teller<Shape> grouping =
                new Entry.Teller<>() {
                    @Override
                    public Shape key(Key<?> key) {
                        return new Single(key);
                    }

                    @Override
                    public Shape part(Part part) {
                        return part.shape();
                    }
                };
        Map<Shape, List<Entry>> alike = new LinkedHashMap<>();
        for (Entry entry : block.entries()) {
            alike.computeIfAbsent(entry.tell(grouping), s -> new ArrayList<>()).add(entry);
        }
        return alike;
    }

    private static String row(Setting setting) {
        return row(
                code(setting.path()),
                setting.unit(),
                setting.duty().isEmpty() ? code(setting.fallback()) : setting.duty(),
                setting.min(),
                setting.max(),
                setting.meaning(),
                setting.origin());
    }

    private static String row(String... cells) {
        StringBuilder row = new StringBuilder();
        for (String cell : cells) {
            row.append("| ").append(cell.replace("|", "\\|")).append(' ');
        }
        return row.append("|\n").toString();
    }

    private static String code(String text) {
        return text.isEmpty() ? "" : "`" + text + "`";
    }

    /** Keeps single settings apart that are written alike. */
    private record Single(Key<?> key) implements Shape {
        @Override
        public <R> R tell(Teller<R> teller) {
            return key.form().tell(teller);
        }
    }

    /**
     * The row of one key itself.
     *
     * @param path its path
     * @param parent the block that it stands in
     */
    private record OwnRow(String path, Block parent) implements Entry.Teller<Setting> {

        @Override
        public Setting key(Key<?> key) {
            boolean given = key.fallback().isPresent();
            return new Setting(
                    path,
                    key.form().unit(),
                    given ? key.printedDefault() : "",
                    given ? "" : absent(key),
                    key.form().min(),
                    key.form().max(),
                    key.meaning(),
                    key.origin());
        }

        @Override
        public Setting part(Part part) {
            return new Setting(path, "keys below", "", absent(part), "", "", part.meaning(), "");
        }

        private String absent(Entry entry) {
            for (List<String> choice : parent.choices()) {
                if (choice.contains(entry.name())) {
                    return "one of " + String.join(", ", choice);
                }
            }
            return entry.required() ? "required" : "none";
        }
    }

    /** The rows of what stands below one key, or below several that are alike. */
    private final class RowsBelow implements Shape.Teller<List<Setting>> {

        private final String path;

        RowsBelow(String path) {
            this.path = path;
        }

        @Override
        public List<Setting> form(Form<?> form) {
            return List.of();
        }

        @Override
        public List<Setting> block(Block block) {
            return shown.contains(block)
                    ? List.of(
                            new Setting(
                                    path + ".…",
                                    "as above",
                                    "",
                                    "as above",
                                    "",
                                    "",
                                    "as above",
                                    ""))
                    : SettingsTable.this.block(path + ".", block);
        }

        @Override
        public List<Setting> named(Named named) {
            return named.each().tell(new RowsBelow(path + ".<" + named.noun() + ">"));
        }

        @Override
        public List<Setting> pair(Pair pair) {
            return pair.each().tell(new RowsBelow(path + "[]"));
        }
    }
}
