package leat.diagnose;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** What a measuring program was given on its command line. Immutable. */
record Options(List<String> given) {

    static Options of(String[] arguments) {
        return new Options(Arrays.asList(arguments));
    }

    String text(String key, String usual) {
        int at = given.indexOf(key);
        return at < 0 ? usual : given.get(at + 1);
    }

    double number(String key, double usual) {
        return Double.parseDouble(text(key, "" + usual));
    }

    boolean has(String key) {
        return given.contains(key);
    }

    /** What stands before the first option. */
    Path[] files() {
        List<Path> files = new ArrayList<>();
        for (String one : given) {
            if (one.startsWith("--")) {
                break;
            }
            files.add(Path.of(one));
        }
        return files.toArray(Path[]::new);
    }
}
