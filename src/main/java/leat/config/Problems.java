package leat.config;

import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Collects what is wrong and what is doubtful while a file is read. Thread-confined. */
final class Problems {

    private static final Comparator<Problem> BY_PLACE =
            Comparator.comparingInt(Problem::line).thenComparingInt(Problem::column);

    private final String file;

    /** Sets: a node that an alias repeats is read twice, and said once. */
    private final Set<Problem> problems = new LinkedHashSet<>();

    private final Set<Problem> warnings = new LinkedHashSet<>();

    Problems(String file) {
        this.file = file;
    }

    void wrong(Spot spot, String path, String what, String allowed) {
        problems.add(new Problem(file, spot.line(), spot.column(), path, what, allowed));
    }

    /** The file as a whole cannot be used. */
    void unusable(String what, String allowed) {
        problems.add(new Problem(file, 0, 0, "", what, allowed));
    }

    void doubtful(Spot spot, String path, String what, String allowed) {
        warnings.add(new Problem(file, spot.line(), spot.column(), path, what, allowed));
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

    private static List<Problem> sorted(Set<Problem> found) {
        return found.stream().sorted(BY_PLACE).toList();
    }
}
