package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import leat.Gear;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.QuietHours;
import leat.config.RoutePolicy;
import leat.diagnose.Cause;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.store.Message;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Two days of alarms of one cause that come, get worse, ease, are acknowledged and go, told to a
 * route with digest, flood limit and reminders: a run that is killed again and again tells the
 * same, message by message, as one that never was.
 */
class DigestRestartTest {

    private static final int STEPS = 200;
    private static final double KILLS = 0.08;
    private static final double LONGEST_STEP = 80;
    private static final List<Rule> RULES =
            List.of(Rule.RATIO, Rule.RISE, Rule.REST, Rule.INLET, Rule.LEVEL_LOW);

    @TempDir Path folder;

    private record Step(double minute, Rule rule, AlarmEvent event, AlarmState to, Grade grade) {}

    static LongStream seeds() {
        return LongStream.rangeClosed(1, Gear.of(1, 2));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void killed_at_any_second_it_tells_what_an_undisturbed_run_tells(long seed) {
        List<Step> story = story(new Random(seed));

        List<Message> undisturbed = told("calm", story, new Random(0), 0);
        List<Message> killed = told("killed", story, new Random(seed), KILLS);

        assertThat(words(killed)).as("seed %d", seed).isEqualTo(words(undisturbed));
        assertThat(killed).isEqualTo(undisturbed);
        assertThat(undisturbed)
                .extracting(Message::event)
                .contains("digest", "more", "again", "alone", "raised", "worsened");
    }

    /** Short enough to see where two lists part. */
    private static String words(List<Message> messages) {
        return messages.stream()
                .map(m -> m.id() + " " + m.subject())
                .collect(Collectors.joining("\n"));
    }

    private List<Message> told(String name, List<Step> story, Random random, double kills) {
        try (PolicyRoom room =
                new PolicyRoom(folder.resolve(name), PolicyRoom.route("shift", policy()))) {
            room.because(Cause.WORN_BOOSTER);
            int[] revisions = new int[Rule.values().length];
            for (Step step : story) {
                if (random.nextDouble() < kills) {
                    room.lose(step.minute());
                }
                room.second(step.minute());
                if (random.nextDouble() < kills) {
                    room.restart();
                }
                int revision = ++revisions[step.rule().ordinal()];
                room.change(
                        "jet-1",
                        step.rule(),
                        revision,
                        step.event(),
                        step.to(),
                        step.grade(),
                        step.minute());
            }
            return room.due("shift");
        }
    }

    private static RoutePolicy policy() {
        return new RoutePolicy(
                Optional.of(new QuietHours(LocalTime.of(22, 0), LocalTime.of(6, 0))),
                Optional.empty(),
                Optional.of(Duration.ofMinutes(10)),
                OptionalInt.of(1),
                Optional.empty(),
                Optional.of(LocalTime.of(7, 0)));
    }

    private static List<Step> story(Random random) {
        List<Step> story = new ArrayList<>();
        Grade[] grades = new Grade[Rule.values().length];
        double minute = 0;
        for (int i = 0; i < STEPS; i++) {
            minute += random.nextInt(4) == 0 ? random.nextDouble() * LONGEST_STEP : 0.5;
            Rule rule = RULES.get(random.nextInt(RULES.size()));
            Grade before = grades[rule.ordinal()];
            Step step = step(minute, rule, before, random);
            grades[rule.ordinal()] = step.to() == AlarmState.NORMAL ? null : step.grade();
            story.add(step);
        }
        return story;
    }

    private static Step step(double minute, Rule rule, Grade before, Random random) {
        if (before == null) {
            Grade grade = random.nextInt(3) == 0 ? Grade.WARNING : Grade.ADVISORY;
            return new Step(minute, rule, AlarmEvent.RAISED, AlarmState.UNACKNOWLEDGED, grade);
        }
        return switch (random.nextInt(4)) {
            case 0 ->
                    new Step(
                            minute,
                            rule,
                            AlarmEvent.WORSENED,
                            AlarmState.UNACKNOWLEDGED,
                            random.nextInt(4) == 0 ? Grade.CRITICAL : Grade.WARNING);
            case 1 ->
                    new Step(
                            minute,
                            rule,
                            AlarmEvent.EASED,
                            AlarmState.UNACKNOWLEDGED,
                            Grade.ADVISORY);
            case 2 ->
                    new Step(
                            minute, rule, AlarmEvent.ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, before);
            default -> new Step(minute, rule, AlarmEvent.RETURNED, AlarmState.NORMAL, before);
        };
    }
}
