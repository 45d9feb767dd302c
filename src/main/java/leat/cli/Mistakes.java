package leat.cli;

import java.util.List;
import java.util.stream.Stream;

/** Many mistakes mostly have one cause: the first ones are shown and the others counted. */
final class Mistakes {

    private static final int SHOWN = 50;

    private Mistakes() {}

    /** Each as it is printed; where there are more than 50, the last line says how many more. */
    static List<String> shown(List<?> all) {
        Stream<String> first = all.stream().limit(SHOWN).map(Object::toString);
        int left = all.size() - SHOWN;
        return Stream.concat(first, left > 0 ? Stream.of("and " + left + " more") : Stream.empty())
                .toList();
    }
}
