package leat.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import leat.measure.Run;
import leat.rule.Grade;
import leat.rule.JudgedRun;
import leat.rule.Rule;
import leat.rule.RunVerdict;
import leat.rule.RunVerdict.Aspect;
import leat.rule.RunVerdict.Mark;
import leat.rule.StartupVerdict;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class RunWordsTest {

    private static RunWords words(Language language) {
        return new FindingWords(
                        Phrases.in(language),
                        new Numbers(language, PressureUnit.PSI, ZoneOffset.UTC))
                .runs();
    }

    private static String brief(
            boolean over,
            StartupVerdict.Outcome start,
            Mark rise,
            Mark loaded,
            Mark ratio,
            RunVerdict.Raised... raised) {
        List<RunVerdict.Part> parts =
                List.of(
                        new RunVerdict.Part(Aspect.RISE, rise),
                        new RunVerdict.Part(Aspect.RATIO, ratio),
                        new RunVerdict.Part(Aspect.LOADED, loaded));
        return words(Language.ENGLISH)
                .brief(
                        new JudgedRun(
                                new Run(0, 40_000_000, over, Map.of()),
                                new RunVerdict(parts, List.of(raised))),
                        new StartupVerdict(start, List.of()));
    }

    @ParameterizedTest
    @CsvSource({
        "true, GOOD, GOOD, GOOD, GOOD, good",
        "false, GOOD, GOOD, GOOD, GOOD, good so far",
        "true, RELAXED, GOOD, GOOD, GOOD, slow after service",
        "true, GOOD, GOOD, WARNING, GOOD, low level",
        "true, GOOD, GOOD, WARNING, WARNING, 'low level, low ratio'",
        "true, GOOD, GOOD, WARNING, CRITICAL, 'low ratio, low level'",
        "true, SLOW, ADVISORY, GOOD, GOOD, slow rise",
        "true, NO_BOOST, CRITICAL, WARNING, CRITICAL, 'no boost, low ratio +1'",
        "true, NOT_RISEN, CRITICAL, NOT_JUDGED, NOT_JUDGED, not risen",
        "true, GOOD, GOOD, NOT_JUDGED, NOT_JUDGED, level not judged",
        "true, NOT_JUDGED, NOT_JUDGED, GOOD, GOOD, rise not judged",
        "false, NOT_JUDGED, NOT_JUDGED, NOT_JUDGED, GOOD, not judged so far"
    })
    void verdict_is_told_in_a_few_words_the_gravest_first(
            boolean over,
            StartupVerdict.Outcome start,
            Mark rise,
            Mark loaded,
            Mark ratio,
            String told) {
        assertThat(brief(over, start, rise, loaded, ratio)).isEqualTo(told);
    }

    @Test
    void what_was_raised_counts_though_the_means_are_good() {
        String told =
                brief(
                        true,
                        StartupVerdict.Outcome.GOOD,
                        Mark.GOOD,
                        Mark.ADVISORY,
                        Mark.GOOD,
                        new RunVerdict.Raised(Rule.LEVEL_LOW, Channel.BOOSTED, Grade.WARNING),
                        new RunVerdict.Raised(Rule.SIGNAL_MISSING, Channel.INLET, Grade.CRITICAL));

        assertThat(told).isEqualTo("signal lost, low level");
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void there_are_words_for_every_thing_and_every_rule(Language language) {
        RunWords words = words(language);

        assertThat(Aspect.values()).extracting(words::aspect).doesNotHaveDuplicates();
        assertThat(Mark.values()).extracting(words::mark).doesNotHaveDuplicates();
        assertThat(Stream.of(Rule.values()).filter(rule -> rule != Rule.RISE))
                .allMatch(rule -> Phrases.in(language).has("brief." + rule.key()));
    }
}
