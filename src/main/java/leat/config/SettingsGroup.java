package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * Settings of {@code site.yaml} that stand under one key. Immutable.
 *
 * @param path the keys above them, such as {@code connections.<connection>.mqtt}; alternatives
 *     stand in braces
 * @param head the group's own key: whether it must be there and what it is for
 * @param settings what stands under it, in the order in which it is written
 */
public record SettingsGroup(String path, Setting head, List<Setting> settings) {

    public SettingsGroup {
        requireNonNull(path, "path");
        requireNonNull(head, "head");
        settings = List.copyOf(settings);
    }

    /** The path without the names that the site chooses, such as {@code connections.mqtt}. */
    public String name() {
        return String.join(".", spelled(0));
    }

    /**
     * Whether the group is asked for by keys that stand one after another in its path: {@code
     * limits.rise} is asked for by "limits", "rise" and "limits.rise".
     */
    public boolean isAskedForBy(String keys) {
        List<String> asked = Arrays.asList(keys.split("\\."));
        return Collections.indexOfSubList(spelled(0), asked) >= 0
                || Collections.indexOfSubList(spelled(1), asked) >= 0
                || Collections.indexOfSubList(spelled(2), asked) >= 0;
    }

    /** The keys of the path, of alternatives the one at this place, or the last. */
    private List<String> spelled(int alternative) {
        List<String> keys = new ArrayList<>();
        for (String key : path.split("\\.")) {
            String[] names = key.replaceAll("[{}]", "").split(",");
            if (!key.startsWith("<")) {
                keys.add(names[Math.min(alternative, names.length - 1)]);
            }
        }
        return keys;
    }
}
