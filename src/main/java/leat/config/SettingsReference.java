package leat.config;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Every setting of {@code site.yaml}, from the declarations that the loader reads by. A group
 * begins at each key of the first and the second level under which keys stand, at each of the third
 * that stands for others, and where several keys have the same below them. Thread-safe: each call
 * collects anew.
 */
public final class SettingsReference {

    private static final int LEVELS_WITH_GROUPS = 2;

    /** Where each block was told of first. */
    private final Map<Block, String> shown = new HashMap<>();

    private final List<Draft> drafts = new ArrayList<>();

    private SettingsReference() {}

    /** The groups, in the order in which they stand in the file. */
    public static List<SettingsGroup> groups() {
        SettingsReference reference = new SettingsReference();
        for (Entry entry : SiteReader.BLOCK.entries()) {
            entry.shape().tell(reference.new Below(entry.name(), reference.open(entry)));
        }
        return reference.drafts.stream().map(Draft::done).toList();
    }

    /** A group that is being filled. */
    private record Draft(String path, Setting head, List<Setting> settings) {

        SettingsGroup done() {
            return new SettingsGroup(path, head, settings);
        }

        String under(String whole) {
            return whole.substring(path.length()).replaceFirst("^(\\.<[a-z]+>)?\\.?", "");
        }
    }

    private Draft open(Entry entry) {
        return open(entry.name(), entry.tell(new Row("", SiteReader.BLOCK)));
    }

    private Draft open(String path, Setting head) {
        Draft draft = new Draft(path, head, new ArrayList<>());
        drafts.add(draft);
        return draft;
    }

    private void fill(Draft group, String path, Block block) {
        shown.putIfAbsent(block, path);
        List<Map.Entry<Shape, List<Entry>>> all = new ArrayList<>(alike(block).entrySet());
        all.sort(Comparator.comparing(e -> opensGroup(path, block, e.getValue())));
        for (Map.Entry<Shape, List<Entry>> each : all) {
            List<Entry> entries = each.getValue();
            String whole = path + "." + names(entries);
            Setting head = entries.get(0).tell(new Row(group.under(whole), block));
            if (entries.size() > 1 || !opensGroup(path, block, entries)) {
                for (Entry entry : entries) {
                    String name = group.under(path + "." + entry.name());
                    group.settings().add(entry.tell(new Row(name, block)));
                }
            }
            if (!(each.getKey() instanceof Block told && shown.containsKey(told))) {
                Draft below = opensGroup(path, block, entries) ? open(whole, head) : group;
                each.getKey().tell(new Below(whole, below));
            }
        }
    }

    private static String names(List<Entry> entries) {
        List<String> names = entries.stream().map(Entry::name).toList();
        return names.size() == 1 ? names.get(0) : "{" + String.join(",", names) + "}";
    }

    private boolean opensGroup(String path, Block parent, List<Entry> entries) {
        boolean told = entries.get(0).shape() instanceof Block block && shown.containsKey(block);
        long levels = List.of(path.split("\\.")).stream().filter(k -> !k.startsWith("<")).count();
        return entries.get(0) instanceof Part
                && !told
                && (levels < LEVELS_WITH_GROUPS
                        || levels == LEVELS_WITH_GROUPS && isChoice(parent, entries.get(0))
                        || entries.size() > 1);
    }

    private static boolean isChoice(Block parent, Entry entry) {
        return parent.choices().stream().anyMatch(choice -> choice.contains(entry.name()));
    }

    /** Parts under which the same may stand share what is below them. */
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

    /** Keeps single settings apart that are written alike. */
    private record Single(Key<?> key) implements Shape {
        @Override
        public <R> R tell(Teller<R> teller) {
            return key.form().tell(teller);
        }
    }

    /** One key itself, called {@code name}, in the block that it stands in. */
    private final class Row implements Entry.Teller<Setting> {

        private final String name;
        private final Block parent;

        Row(String name, Block parent) {
            this.name = name;
            this.parent = parent;
        }

        @Override
        public Setting key(Key<?> key) {
            return new Setting(
                    name,
                    key.form().unit(),
                    key.fallback().map(value -> key.printedDefault()),
                    key.required(),
                    choice(key),
                    key.form().min(),
                    key.form().max(),
                    key.meaning(),
                    key.origin());
        }

        @Override
        public Setting part(Part part) {
            String told = part.shape() instanceof Block block ? shown.getOrDefault(block, "") : "";
            return new Setting(
                    name,
                    told.isEmpty() ? "keys below" : "keys as under " + told,
                    Optional.empty(),
                    part.required(),
                    choice(part),
                    "",
                    "",
                    part.meaning(),
                    "");
        }

        private List<String> choice(Entry entry) {
            return parent.choices().stream()
                    .filter(choice -> choice.contains(entry.name()))
                    .findFirst()
                    .orElse(List.of());
        }
    }

    /** Takes up what stands below one key, or below several that are alike. */
    private final class Below implements Shape.Teller<Boolean> {

        private final String path;
        private final Draft group;

        Below(String path, Draft group) {
            this.path = path;
            this.group = group;
        }

        @Override
        public Boolean form(Form<?> form) {
            return true;
        }

        @Override
        public Boolean block(Block block) {
            fill(group, path, block);
            return true;
        }

        @Override
        public Boolean named(Named named) {
            return named.each().tell(new Below(path + ".<" + named.noun() + ">", group));
        }

        @Override
        public Boolean pair(Pair pair) {
            return pair.each().tell(new Below(path + "[]", group));
        }
    }
}
