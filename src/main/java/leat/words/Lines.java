package leat.words;

import java.util.ArrayList;
import java.util.List;

/**
 * The lines of a text, broken at spaces to a width; continued lines are indented. Thread-confined.
 */
public final class Lines {

    /** Unless said otherwise; characters. */
    public static final int WIDTH = 100;

    private static final String INDENT = "   ";

    private final int width;
    private final List<String> broken = new ArrayList<>();

    public Lines() {
        this(WIDTH);
    }

    /**
     * @param width characters; more than the indents that are asked for
     */
    public Lines(int width) {
        this.width = width;
    }

    public Lines add(String line) {
        return add("", line, INDENT);
    }

    /**
     * @param first what the first line begins with, such as a number
     * @param further what each continued line begins with
     */
    public Lines add(String first, String line, String further) {
        String rest = line;
        String indent = first;
        while (indent.length() + rest.length() > width) {
            int space = rest.lastIndexOf(' ', width - indent.length());
            space = space > 0 ? space : rest.indexOf(' ');
            if (space <= 0) {
                break;
            }
            broken.add(indent + rest.substring(0, space));
            rest = rest.substring(space + 1);
            indent = further;
        }
        broken.add(indent + rest);
        return this;
    }

    /** A text whose continued lines are whole again, for what breaks lines itself. */
    public static String unbroken(String text) {
        return text.replace("\n" + INDENT, " ");
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
