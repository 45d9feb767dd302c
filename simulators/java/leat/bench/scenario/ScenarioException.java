package leat.bench.scenario;

import java.util.List;

/** A scenario file that cannot be played; says everything that is wrong with it, by line. */
public final class ScenarioException extends Exception {

    private static final long serialVersionUID = 1L;

    private final List<String> problems;

    ScenarioException(List<String> problems) {
        super(String.join(System.lineSeparator(), problems));
        this.problems = List.copyOf(problems);
    }

    /** Each as {@code file:line: what is wrong and what is allowed}. */
    public List<String> problems() {
        return problems;
    }
}
