package leat.words;

import java.util.ArrayList;
import java.util.List;

/**
 * The lines of a text, broken at spaces to a width of 100; continued lines are indented.
 * Thread-confined.
 */
public final class Lines {

    private static final int WIDTH = 100;
    private static final String INDENT = "   ";

    private final List<String> broken = new ArrayList<>();

    public Lines add(String line) {
        String rest = line;
        String indent = "";
        while (indent.length() + rest.length() > WIDTH) {
            int space = rest.lastIndexOf(' ', WIDTH - indent.length());
            space = space > 0 ? space : rest.indexOf(' ');
            if (space <= 0) {
                break;
            }
            broken.add(indent + rest.substring(0, space));
            rest = rest.substring(space + 1);
            indent = INDENT;
        }
        broken.add(indent + rest);
        return this;
    }

    /** Adds lines that are broken already. */
    public Lines asIs(String text) {
        broken.addAll(text.lines().toList());
        return this;
    }

    /** As they are to be shown, each no longer than the width unless one word is. */
    public List<String> broken() {
        return List.copyOf(broken);
    }

    public String text() {
        return String.join("\n", broken);
    }
}
