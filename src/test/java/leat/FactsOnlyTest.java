package leat;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.RecordComponent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The core says facts; {@code words} turns them into sentences. Only what goes wrong for a
 * programmer is said in the core itself.
 */
class FactsOnlyTest {

    private static final Path SOURCES = Path.of("src/main/java/leat");

    private static final Pattern COMMENT = Pattern.compile("/\\*.*?\\*/|//[^\n]*", Pattern.DOTALL);

    private static final String TEXT = "\"(?:[^\"\\\\\\n]|\\\\.)*\"";
    private static final Pattern STATEMENT = Pattern.compile("(?:[^;{}\"]|" + TEXT + ")++");
    private static final Pattern SENTENCE = Pattern.compile("\".*[a-z],? [a-z].*\"");

    /** Names, ids, what people typed and what links reported. */
    private static final Set<String> TEXTS =
            new TreeSet<>(
                    Set.of(
                            "Acknowledge.alarmId",
                            "Act.by",
                            "Act.why",
                            "Alarm.id",
                            "AlarmChange.alarmId",
                            "AlarmChange.by",
                            "AlarmNotes.why",
                            "AsTold.words",
                            "Found.machine",
                            "Frequent.alarm",
                            "Instruction.by",
                            "Journal.found",
                            "Journal.text",
                            "NoSuchAlarm.alarmId",
                            "NoSuchMachine.machine",
                            "Remark.about",
                            "Remove.alarmId",
                            "Remove.why",
                            "Reset.alarmId",
                            "Restore.alarmId",
                            "Row.key",
                            "ServiceChange.by",
                            "ServiceChange.why",
                            "Shelve.alarmId",
                            "Shelve.why",
                            "SourceLost.reason",
                            "Unshelve.alarmId",
                            "WatchSettings.machine"));

    private static String room(String name) {
        StringBuilder code = new StringBuilder();
        for (Path file : files(name)) {
            try {
                code.append(Files.readString(file)).append('\n');
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        return COMMENT.matcher(code).replaceAll(" ");
    }

    private static List<Path> files(String room) {
        try (Stream<Path> all = Files.walk(SOURCES.resolve(room))) {
            return all.filter(file -> file.toString().endsWith(".java"))
                    .filter(file -> !file.endsWith("package-info.java"))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<String> sentences(String code) {
        return found(STATEMENT, code)
                .filter(statement -> !statement.contains("Exception("))
                .flatMap(statement -> found(Pattern.compile(TEXT), statement))
                .filter(text -> SENTENCE.matcher(text).matches())
                .toList();
    }

    private static Stream<String> found(Pattern pattern, String in) {
        return pattern.matcher(in).results().map(MatchResult::group);
    }

    @ParameterizedTest
    @ValueSource(strings = {"signal", "phase", "measure", "rule", "alarm", "diagnose", "watch"})
    void no_core_room_says_a_sentence_but_to_a_programmer(String room) {
        assertThat(room(room)).isNotBlank();
        assertThat(sentences(room(room))).isEmpty();
    }

    @Test
    void a_sentence_is_found_wherever_it_stands_and_an_exception_is_let_pass() {
        assertThat(sentences("String a = x + \"no level\";")).containsExactly("\"no level\"");
        assertThat(sentences("a(\"x\", of(b, \"it is on\"));")).hasSize(1);
        assertThat(sentences("throw new IllegalStateException(a + \"it is on\");")).isEmpty();
        assertThat(sentences("at(\"relaxed-left\", \", \", \" : \");")).isEmpty();
    }

    @Test
    void no_record_of_the_core_carries_text_but_names_ids_and_what_somebody_wrote() {
        Set<String> found = new TreeSet<>();
        for (String room :
                List.of("signal", "phase", "measure", "rule", "alarm", "diagnose", "watch")) {
            for (Path file : files(room)) {
                types(file).forEach(type -> texts(type, found));
            }
        }

        assertThat(found).isEqualTo(TEXTS);
    }

    private static void texts(Class<?> type, Set<String> into) {
        if (type.isRecord()) {
            for (RecordComponent component : type.getRecordComponents()) {
                if (component.getGenericType().getTypeName().contains("java.lang.String")) {
                    into.add(type.getSimpleName() + "." + component.getName());
                }
            }
        }
    }

    /** The type of a file and all inside it. */
    private static List<Class<?>> types(Path file) {
        String name =
                SOURCES.getParent()
                        .relativize(file)
                        .toString()
                        .replace(".java", "")
                        .replace('/', '.');
        try {
            List<Class<?>> types = new ArrayList<>(List.of(Class.forName(name)));
            for (int i = 0; i < types.size(); i++) {
                types.addAll(Arrays.asList(types.get(i).getDeclaredClasses()));
            }
            return types;
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException(file + " holds no type of its name", e);
        }
    }
}
