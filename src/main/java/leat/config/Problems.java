package leat.config;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Collects what is wrong and what is doubtful while a file is read. Thread-confined. */
final class Problems {

    private static final Comparator<Problem> BY_PLACE =
            Comparator.comparingInt(Problem::line).thenComparingInt(Problem::column);

    private final String file;
    private final List<Problem> problems = new ArrayList<>();
    private final List<Problem> warnings = new ArrayList<>();

    Problems(String file) {
        this.file = file;
    }

    void wrong(Spot spot, String path, String what, String allowed) {
        add(problems, new Problem(file, spot.line(), spot.column(), path, what, allowed));
    }

    /** The file as a whole cannot be used. */
    void unusable(String what, String allowed) {
        add(problems, new Problem(file, 0, 0, "", what, allowed));
    }

    void doubtful(Spot spot, String path, String what, String allowed) {
        add(warnings, new Problem(file, spot.line(), spot.column(), path, what, allowed));
    }

    /** A node that an alias repeats is read twice, and said once. */
    private static void add(List<Problem> list, Problem problem) {
        if (!list.contains(problem)) {
            list.add(problem);
        }
    }

    boolean isClean() {
        return problems.isEmpty();
    }

    /** In the order of the file. */
    List<Problem> problems() {
        return sorted(problems);
    }

    /** In the order of the file. */
    List<Problem> warnings() {
        return sorted(warnings);
    }

    private static List<Problem> sorted(List<Problem> list) {
        return list.stream().sorted(BY_PLACE).toList();
    }
}
