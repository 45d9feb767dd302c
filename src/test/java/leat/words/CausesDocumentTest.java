package leat.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import leat.diagnose.Cause;
import org.junit.jupiter.api.Test;

/** The table of causes that people read, beside the causes that there are. */
class CausesDocumentTest {

    private static final Pattern KEY = Pattern.compile("`([a-z-]+)`");

    @Test
    void the_table_of_causes_has_each_cause_once() throws IOException {
        List<String> first =
                Files.readAllLines(Path.of("src/docs/causes.md")).stream()
                        .filter(line -> line.startsWith("| `"))
                        .map(line -> line.split("\\|")[1])
                        .toList();

        assertThat(first)
                .flatExtracting(
                        cell -> KEY.matcher(cell).results().map(CausesDocumentTest::key).toList())
                .containsExactlyInAnyOrderElementsOf(
                        Arrays.stream(Cause.values()).map(Cause::key).toList());
    }

    private static String key(MatchResult found) {
        return found.group(1);
    }
}
