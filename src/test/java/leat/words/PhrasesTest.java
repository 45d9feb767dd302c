package leat.words;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.MissingResourceException;
import java.util.Properties;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import leat.alarm.AlarmState;
import leat.alarm.Reason;
import leat.alarm.Refusal;
import leat.diagnose.Advice;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Feature;
import leat.measure.ClimbRemark;
import leat.measure.Measurand;
import leat.measure.absence.Absence;
import leat.phase.PhaseReason;
import leat.rule.Grade;
import leat.rule.Learning;
import leat.rule.Limit;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Keyword;
import leat.signal.Quality;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class PhrasesTest {

    private static final Pattern VALUE = Pattern.compile("\\{\\d");

    /** The file itself, without the English that stands behind every language. */
    private static Properties file(Language language) {
        String name = language == Language.ENGLISH ? "" : "_" + language.key();
        Properties file = new Properties();
        try (Reader in =
                new InputStreamReader(
                        Phrases.class.getResourceAsStream("phrases" + name + ".properties"),
                        StandardCharsets.UTF_8)) {
            file.load(in);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
        return file;
    }

    private static String values(String phrase) {
        return VALUE.matcher(phrase)
                .results()
                .map(found -> found.group())
                .distinct()
                .sorted()
                .collect(Collectors.joining());
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void each_language_says_everything_with_the_same_values(Language language) {
        Properties english = file(Language.ENGLISH);
        Properties file = file(language);

        assertThat(new TreeSet<>(file.stringPropertyNames()))
                .isEqualTo(new TreeSet<>(english.stringPropertyNames()));
        for (String key : english.stringPropertyNames()) {
            assertThat(values(file.getProperty(key)))
                    .as(key)
                    .isEqualTo(values(english.getProperty(key)));
            assertThat(file.getProperty(key)).as(key).isNotBlank();
        }
    }

    @Test
    void german_is_not_english_left_standing() {
        Properties english = file(Language.ENGLISH);
        Properties german = file(Language.GERMAN);

        assertThat(english.stringPropertyNames())
                .filteredOn(key -> !english.getProperty(key).replaceAll("\\{\\d\\}", "").isBlank())
                .filteredOn(key -> english.getProperty(key).matches(".*[a-z]{3}.*"))
                .filteredOn(key -> english.getProperty(key).equals(german.getProperty(key)))
                .isEmpty();
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void no_phrase_loses_an_apostrophe(Language language) {
        Properties file = file(language);

        for (String key : file.stringPropertyNames()) {
            assertThat(file.getProperty(key).replace("''", "")).as(key).doesNotContain("'");
        }
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void there_are_words_for_all_that_can_be_found(Language language) {
        TreeSet<String> keys = new TreeSet<>(file(language).stringPropertyNames());

        assertThat(keys)
                .containsAll(Arrays.stream(Rule.values()).map(r -> "rule." + r.key()).toList())
                .containsAll(
                        Arrays.stream(Grade.values())
                                .map(g -> "grade." + g.name().toLowerCase() + ".meaning")
                                .toList())
                .containsAll(
                        Arrays.stream(Remark.Kind.values()).map(k -> "remark." + k.key()).toList())
                .containsAll(
                        Arrays.stream(PhaseReason.values())
                                .map(r -> "phase-reason." + r.key())
                                .toList())
                .containsAll(
                        Arrays.stream(Refusal.Obstacle.values())
                                .map(o -> "refusal." + o.key())
                                .toList())
                .contains(
                        "refusal.no-such-machine",
                        "refusal.no-such-alarm",
                        "refusal.shelf-too-long")
                .containsAll(
                        Arrays.stream(Channel.values()).map(c -> "channel." + c.key()).toList())
                .containsAll(
                        Arrays.stream(AlarmState.values())
                                .map(s -> "alarm-state." + s.key())
                                .toList())
                .containsAll(
                        Arrays.stream(Absence.values()).map(a -> "absence." + a.key()).toList())
                .containsAll(
                        Arrays.stream(ClimbRemark.Kind.values())
                                .map(k -> "climb." + k.key())
                                .toList())
                .containsAll(
                        Arrays.stream(Measurand.values()).map(m -> "measurand." + m.key()).toList())
                .containsAll(
                        Arrays.stream(Learning.Cause.values())
                                .map(c -> "learning." + c.name().toLowerCase())
                                .toList())
                .containsAll(Arrays.stream(Reason.values()).map(r -> "reason." + r.key()).toList())
                .containsAll(Arrays.stream(Limit.values()).map(l -> "meaning." + l.key()).toList())
                .containsAll(
                        Arrays.stream(Limit.Origin.values()).map(o -> "origin." + o.key()).toList())
                .containsAll(
                        Arrays.stream(Quality.values()).map(q -> "quality." + q.key()).toList())
                .containsAll(
                        Arrays.stream(Advice.values())
                                .map(a -> "advice." + a.key() + ".1")
                                .toList());
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void there_are_words_for_every_cause_and_what_is_done_about_it(Language language) {
        TreeSet<String> keys = new TreeSet<>(file(language).stringPropertyNames());

        assertThat(keys)
                .containsAll(Arrays.stream(Cause.values()).map(c -> "cause." + c.key()).toList())
                .containsAll(Arrays.stream(Cause.values()).map(c -> "do." + c.key()).toList())
                .containsAll(
                        Arrays.stream(Cause.values())
                                .filter(c -> c != Cause.UNKNOWN)
                                .map(c -> "is." + c.key())
                                .toList())
                .containsAll(
                        Arrays.stream(Check.values()).map(c -> "check." + c.key() + ".do").toList())
                .containsAll(
                        Arrays.stream(Check.values())
                                .map(c -> "check." + c.key() + ".asks")
                                .toList())
                .containsAll(
                        Arrays.stream(Check.values())
                                .map(c -> "check." + c.key() + ".look")
                                .toList())
                .containsAll(Arrays.stream(Answer.values()).map(a -> "answer." + a.key()).toList())
                .containsAll(
                        Arrays.stream(Answer.values()).map(a -> "meaning-of." + a.key()).toList())
                .containsAll(
                        Arrays.stream(ServiceStep.values())
                                .map(s -> "step." + Keyword.of(s))
                                .toList())
                .containsAll(
                        Arrays.stream(Feature.values())
                                .map(f -> "measurand." + f.measurand().key())
                                .toList());
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void there_are_words_for_what_each_number_shows(Language language) {
        TreeSet<String> keys = new TreeSet<>(file(language).stringPropertyNames());

        assertThat(Feature.values())
                .filteredOn(feature -> feature != Feature.NOT_RISEN) // no number but yes or no
                .allSatisfy(
                        feature ->
                                assertThat(keys)
                                        .contains(
                                                "shows." + feature.key() + ".less",
                                                "shows." + feature.key() + ".usual",
                                                "shows." + feature.key() + ".more"));
    }

    /** A feature that was renamed or a cause that is gone must not leave its phrases behind. */
    @Test
    void what_a_number_shows_is_of_a_feature_and_a_side_that_exist() {
        String causes =
                Arrays.stream(Cause.values()).map(Cause::key).collect(Collectors.joining("|"));
        String features =
                Arrays.stream(Feature.values()).map(Feature::key).collect(Collectors.joining("|"));

        assertThat(file(Language.ENGLISH).stringPropertyNames())
                .filteredOn(key -> key.matches("(shows|for|against)\\..*"))
                .isNotEmpty()
                .allMatch(
                        key ->
                                key.matches(
                                        "(shows|(for|against)\\.(%s))\\.(%s)\\.(less|usual|more)"
                                                .formatted(causes, features)));
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void each_check_is_one_or_two_short_sentences(Language language) {
        Properties file = file(language);

        assertThat(file.stringPropertyNames())
                .filteredOn(key -> key.matches("advice\\..*\\.\\d"))
                .allMatch(key -> file.getProperty(key).length() <= 130)
                .allMatch(key -> file.getProperty(key).matches(".*[.?]"));
    }

    /** The usual cautions of work on pressure lines; common practice, no source. */
    @Test
    void the_caution_names_what_can_hurt_and_who_decides() {
        assertThat(Phrases.in(Language.ENGLISH).say("advice.caution"))
                .contains("isolate water and electricity", "lock out")
                .contains("relieve pressure before opening a line")
                .contains("high-pressure side can injure fatally")
                .contains("site's procedure", "local codes", "qualified people")
                .contains("no safety device", "the machine's own trip");
        assertThat(Phrases.in(Language.GERMAN).say("advice.caution"))
                .contains("Wasser und Strom absperren", "gegen Wiedereinschalten sichern")
                .contains("Druck ablassen, bevor eine Leitung geöffnet wird")
                .contains("Hochdruckseite", "tödlich")
                .contains("Anweisungen des Betriebs", "örtlichen Vorschriften", "Fachleute")
                .contains("keine Sicherheitseinrichtung", "Abschaltung der Maschine");
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void what_may_run_the_booster_dry_begins_with_stopping_it(Language language) {
        Phrases phrases = Phrases.in(language);

        for (Rule rule : new Rule[] {Rule.INLET, Rule.RISE, Rule.RATIO}) {
            String key = Advice.on(rule, Grade.CRITICAL).key();
            assertThat(phrases.say("advice." + key + ".1")).matches("(Stop the b|B)ooster.*");
        }
    }

    private static final Pattern KEY =
            Pattern.compile("\"((?:cli|replay|asked|way|trial|sense)\\.[a-z0-9.-]*[a-z0-9])\"");

    private static final Pattern FAULT =
            Pattern.compile("FaultWords\\.english\\(\\s*\"([a-z0-9.-]*[a-z0-9])\"");

    /** A key that is misspelt would be met by a person at the command line. */
    @Test
    void every_phrase_that_the_code_names_is_there() throws IOException {
        TreeSet<String> named = new TreeSet<>();
        try (Stream<Path> files = Files.walk(Path.of("src/main/java"))) {
            for (Path source : files.filter(f -> f.toString().endsWith(".java")).toList()) {
                String text = Files.readString(source);
                KEY.matcher(text).results().forEach(k -> named.add(k.group(1)));
                FAULT.matcher(text).results().forEach(k -> named.add("fault." + k.group(1)));
            }
        }

        assertThat(named).hasSizeGreaterThan(100);
        assertThat(file(Language.ENGLISH).stringPropertyNames()).containsAll(named);
    }

    @Test
    void what_is_put_in_is_never_read_as_a_pattern() {
        String hostile = "{0} {9} '{' ''";

        assertThat(Phrases.in(Language.GERMAN).say("call.also", hostile))
                .isEqualTo("Außerdem: " + hostile + ".");
    }

    @Test
    void one_is_one_and_none_and_many_are_many() {
        Phrases english = Phrases.in(Language.ENGLISH);

        assertThat(english.say("daily.alarms", 0)).isEqualTo("0 alarms stand");
        assertThat(english.say("daily.alarms", 1)).isEqualTo("1 alarm stands");
        assertThat(english.say("daily.alarms", 2)).isEqualTo("2 alarms stand");
        assertThat(Phrases.in(Language.GERMAN).say("daily.alarms", 1)).contains("1 Alarm steht an");
    }

    @Test
    void a_phrase_that_nobody_wrote_is_an_error() {
        assertThatThrownBy(() -> Phrases.in(Language.GERMAN).say("no.such"))
                .isInstanceOf(MissingResourceException.class);
    }
}
