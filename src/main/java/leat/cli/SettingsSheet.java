package leat.cli;

import java.util.List;
import leat.config.Setting;
import leat.config.SettingsGroup;

/** Settings for a terminal: two lines or three for each, none longer than 80 columns. */
final class SettingsSheet {

    private static final int WIDTH = 80;

    private SettingsSheet() {}

    static String text(List<SettingsGroup> groups) {
        StringBuilder text = new StringBuilder();
        for (SettingsGroup group : groups) {
            text.append(text.isEmpty() ? "" : System.lineSeparator());
            text.append(folded("", group.path() + ": " + meaning(group.head())));
            for (Setting setting : group.settings()) {
                text.append(folded("  ", setting.name() + ": " + value(setting)));
                text.append(folded("      ", setting.meaning() + origin(setting)));
            }
        }
        return text.toString();
    }

    private static String meaning(Setting head) {
        return head.absent().equals("none")
                ? head.meaning()
                : head.meaning() + "; " + head.absent();
    }

    private static String value(Setting setting) {
        return setting.fallback().orElse(setting.absent()) + "; " + setting.allowed();
    }

    private static String origin(Setting setting) {
        return setting.origin().isEmpty() ? "" : " [" + setting.origin() + "]";
    }

    /** Words in lines that begin with {@code indent}, further ones two columns deeper. */
    static String folded(String indent, String words) {
        StringBuilder text = new StringBuilder();
        StringBuilder line = new StringBuilder(indent);
        for (String word : words.split(" ")) {
            if (!line.toString().isBlank() && line.length() + word.length() > WIDTH) {
                text.append(line.toString().stripTrailing()).append(System.lineSeparator());
                line = new StringBuilder(indent).append("  ");
            }
            line.append(word).append(' ');
        }
        return text.append(line.toString().stripTrailing())
                .append(System.lineSeparator())
                .toString();
    }
}
