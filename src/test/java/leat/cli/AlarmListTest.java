package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import leat.alarm.AlarmState;
import leat.rule.Grade;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a person sees first of many alarms; their numbers go by the order in which they came. */
class AlarmListTest {

    private static final String GONE = "Gone, shelved or held back:";

    @TempDir Path folder;
    private StoredSite site;

    @BeforeEach
    void alarms() throws IOException {
        site = StoredSite.in(folder);
        List<RaisedAlarm> alarms =
                List.of(
                        alarm(Grade.ADVISORY, AlarmState.UNACKNOWLEDGED, 1),
                        alarm(Grade.CRITICAL, AlarmState.SHELVED, 2),
                        alarm(Grade.CRITICAL, AlarmState.ACKNOWLEDGED, 3),
                        alarm(Grade.WARNING, AlarmState.UNACKNOWLEDGED, 4),
                        alarm(Grade.CRITICAL, AlarmState.UNACKNOWLEDGED, 5),
                        alarm(Grade.CRITICAL, AlarmState.RETURNED_UNACKNOWLEDGED, 6),
                        alarm(Grade.CRITICAL, AlarmState.UNACKNOWLEDGED, 7),
                        alarm(Grade.WARNING, AlarmState.NORMAL, 8));
        site.commit((batch, hash) -> alarms.forEach(alarm -> alarm.into(batch, hash)));
    }

    private static RaisedAlarm alarm(Grade grade, AlarmState state, int minute) {
        return new RaisedAlarm("jet-1", grade, state, minute, "kim", "");
    }

    /** The numbers in the rows of a table, in their order. */
    private static List<String> numbers(Stream<String> lines) {
        return lines.filter(line -> line.matches("[0-9]+ +jet-1 .*"))
                .map(line -> line.substring(0, line.indexOf(' ')))
                .toList();
    }

    @Test
    void gravest_stands_first_and_of_a_grade_what_nobody_has_seen_and_of_that_the_newest() {
        Ran ran = site.leat("alarms");

        assertThat(numbers(ran.out().lines().takeWhile(line -> !line.equals(GONE))))
                .containsExactly("7", "5", "3", "4", "1");
    }

    @Test
    void what_has_gone_or_is_shelved_stands_apart_below_what_stands() {
        assertThat(numbers(site.leat("alarms").out().lines().dropWhile(line -> !line.equals(GONE))))
                .containsExactly("6", "2");
        assertThat(
                        numbers(
                                site.leat("alarms", "--all")
                                        .out()
                                        .lines()
                                        .dropWhile(line -> !line.equals(GONE))))
                .as("with what is back to normal")
                .containsExactly("6", "2", "8");
    }

    @Test
    void who_has_seen_it_and_what_broke_the_limit_fit_into_the_narrowest_list() {
        assertThat(site.leat("alarms").out())
                .containsPattern("7 +jet-1 +CRITICAL +no +.* 1\\.81 < 2\\.00 +2026-01-05")
                .containsPattern("3 +jet-1 +CRITICAL +yes ")
                .containsPattern("2 +jet-1 +CRITICAL +no +.* shelved until 2026-01-05");
    }
}
