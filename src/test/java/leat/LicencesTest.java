package leat;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.stream.Collectors.toMap;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;

/**
 * {@code leat.jar} carries the licence of each library in it. The texts were taken from the
 * libraries' own jars; for one that has none, the text that its POM names.
 */
class LicencesTest {

    private static final Path TEXTS = Path.of("src/main/resources/META-INF/licenses");
    private static final Pattern JAR = Pattern.compile("(.+?)-[0-9][^-]*\\.jar");
    private static final Pattern TEXT =
            Pattern.compile("(META-INF/([^/]+/)*)?([A-Za-z-]*LICENSE|NOTICE|about)[^/]*");

    /** On the class path of the tests and not in {@code leat.jar}. */
    private static final Predicate<String> OF_THE_TESTS =
            Pattern.compile(
                            "junit-.*|surefire-.*|common-java5|maven-surefire-common|opentest4j"
                                    + "|apiguardian-api|awaitility|hamcrest|assertj-core|byte-buddy"
                                    + "|archunit.*|greenmail|jakarta\\.mail|json-schema-validator|itu|axe-core")
                    .asMatchPredicate();

    private static Map<String, Path> libraries() {
        String all =
                System.getProperty(
                        "surefire.test.class.path", System.getProperty("java.class.path"));
        return Arrays.stream(all.split(File.pathSeparator))
                .map(Path::of)
                .filter(entry -> JAR.matcher(entry.getFileName().toString()).matches())
                .collect(toMap(LicencesTest::name, jar -> jar, (one, same) -> one));
    }

    private static String name(Path jar) {
        Matcher name = JAR.matcher(jar.getFileName().toString());
        assertThat(name.matches()).isTrue();
        return name.group(1);
    }

    private static Map<String, List<String>> index() throws IOException {
        try (Stream<String> lines = Files.lines(TEXTS.resolve("libraries.txt"))) {
            return lines.filter(line -> !line.startsWith("#"))
                    .map(line -> line.split(": "))
                    .collect(toMap(parts -> parts[0], parts -> List.of(parts[1].split(" "))));
        }
    }

    @Test
    void each_library_stands_in_the_list_and_each_in_the_list_is_there() throws IOException {
        TreeSet<String> carried = new TreeSet<>(libraries().keySet());
        carried.removeIf(OF_THE_TESTS);
        carried.add("leat");

        assertThat(new TreeSet<>(index().keySet()))
                .as("a new library: into libraries.txt with its texts, or into OF_THE_TESTS")
                .isEqualTo(carried);
    }

    @Test
    void each_text_in_the_list_is_carried_and_none_beside_it() throws IOException {
        TreeSet<String> named = new TreeSet<>(List.of("libraries.txt"));
        index().values().forEach(named::addAll);

        try (Stream<Path> all = Files.walk(TEXTS)) {
            assertThat(
                            all.filter(Files::isRegularFile)
                                    .map(text -> TEXTS.relativize(text).toString()))
                    .map(text -> text.replace('\\', '/'))
                    .containsExactlyInAnyOrderElementsOf(named);
        }
    }

    @Test
    void what_a_library_says_of_itself_is_carried_word_for_word() throws IOException {
        for (Map.Entry<String, List<String>> each : index().entrySet()) {
            List<String> carried = new ArrayList<>();
            for (String text : each.getValue()) {
                carried.add(plain(Files.readAllBytes(TEXTS.resolve(text))));
            }
            assertThat(carried).as(each.getKey()).containsAll(ownTexts(each.getKey()));
        }
    }

    private static List<String> ownTexts(String library) throws IOException {
        if (library.equals("leat")) {
            return List.of(plain(Files.readAllBytes(Path.of("LICENSE"))));
        }
        List<String> texts = new ArrayList<>();
        try (ZipFile jar = new ZipFile(libraries().get(library).toFile())) {
            for (ZipEntry entry : jar.stream().toList()) {
                if (TEXT.matcher(entry.getName()).matches()) {
                    texts.add(plain(jar.getInputStream(entry).readAllBytes()));
                }
            }
        }
        return texts;
    }

    private static String plain(byte[] text) {
        return new String(text, UTF_8).replace("\r", "");
    }
}
