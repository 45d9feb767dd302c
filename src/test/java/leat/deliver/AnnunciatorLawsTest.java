package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import leat.Gear;
import leat.alarm.AlarmState;
import leat.config.RouteSettings;
import leat.diagnose.Cause;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.store.Message;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What holds of who is told when, whatever happens. */
class AnnunciatorLawsTest {

    private static final DateTimeFormatter WINDOW =
            DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'", Locale.ROOT);

    /** Digests and floods that are under way have come to their end by then. */
    private static final long LONG_ENOUGH = 3 * RandomAlarms.DAY;

    /**
     * What is owed, with what it was owed for.
     *
     * @param step number of the step
     * @param message what is owed
     */
    private record Told(int step, Notification message) {}

    static LongStream seeds() {
        return Gear.seeds(2, 200);
    }

    @Test
    void stories_hold_every_kind_of_message() {
        Set<String> events =
                LongStream.rangeClosed(1, 6)
                        .mapToObj(seed -> RandomAlarms.of(seed, true))
                        .flatMap(story -> messages(played(story, told -> {}, () -> false)))
                        .map(message -> message.about().event())
                        .collect(Collectors.toSet());

        assertThat(events)
                .contains("raised", "returned", "acknowledged", "shelved", "unshelved")
                .contains(
                        "again",
                        "escalated",
                        "alone",
                        "read-again",
                        "digest",
                        "more",
                        "undelivered",
                        "all-is-well");
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void same_occasions_give_the_same_messages_whenever_they_are_put_into_words(long seed) {
        RandomAlarms story = RandomAlarms.of(seed, true);
        Wording wording = new Wording(story.site());
        List<Message> atOnce = new ArrayList<>();

        List<Told> first = played(story, told -> atOnce.add(wording.message(told)), () -> false);
        List<Told> second = played(story, told -> {}, () -> false);

        assertThat(second).isEqualTo(first);
        assertThat(messages(second).map(wording::message)).isEqualTo(atOnce);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void taken_up_at_any_occasion_it_tells_what_one_tells_that_never_stopped(long seed) {
        RandomAlarms story = RandomAlarms.of(seed, true);
        Random cuts = new Random(seed);

        List<Told> undisturbed = played(story, told -> {}, () -> false);
        List<Told> cut = played(story, told -> {}, () -> cuts.nextInt(3) == 0);

        assertThat(cut).isEqualTo(undisturbed);
        assertThat(messages(undisturbed)).hasSizeGreaterThan(100);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void what_is_critical_is_told_at_once_and_by_itself(long seed) {
        RandomAlarms story = RandomAlarms.of(seed, true);

        List<Told> told = played(story, each -> {}, () -> false);

        assertThat(messages(told))
                .filteredOn(each -> each.about().grade() == Grade.CRITICAL)
                .allMatch(each -> each.foldedInto().isEmpty());
        for (int i = 0; i < story.steps().size(); i++) {
            int step = i;
            Optional<Changed> changed = story.steps().get(step).changed();
            if (changed.isPresent() && isCriticalCall(changed.get())) {
                List<String> called =
                        told.stream()
                                .filter(each -> each.step() == step)
                                .map(Told::message)
                                .filter(each -> each.id().equals(changed.get().id()))
                                .map(Notification::route)
                                .toList();
                assertThat(called).containsAll(calledFor(story, changed.get()));
            }
        }
    }

    private static boolean isCriticalCall(Changed changed) {
        return changed.grade() == Grade.CRITICAL && changed.kind() == Message.Purpose.CALL;
    }

    private static List<String> calledFor(RandomAlarms story, Changed changed) {
        return story.site().routes().stream()
                .filter(route -> route.scope().policy().escalateAfter().isEmpty())
                .filter(route -> route.scope().carries(changed.machine()))
                .map(RouteSettings::name)
                .toList();
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void whoever_is_told_that_an_alarm_came_is_told_that_it_went(long seed) {
        RandomAlarms story = RandomAlarms.of(seed, true);

        List<Told> told = played(story, each -> {}, () -> false);

        Set<String> know = new HashSet<>();
        int next = 0;
        for (int step = 0; step < story.steps().size(); step++) {
            Set<String> now = new HashSet<>();
            for (; next < told.size() && told.get(next).step() == step; next++) {
                Notification message = told.get(next).message();
                if (!(message.about() instanceof OutageOver)) {
                    know.add(message.route() + " " + message.about().alarmId());
                }
                now.add(message.route() + " " + message.id());
            }
            Optional<Changed> over =
                    story.steps()
                            .get(step)
                            .changed()
                            .filter(changed -> changed.change().to() == AlarmState.NORMAL);
            for (RouteSettings route : story.site().routes()) {
                if (over.isPresent() && know.remove(route.name() + " " + over.get().alarmId())) {
                    assertThat(now).contains(route.name() + " " + over.get().id());
                }
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void for_each_folded_message_one_stands_on_its_route_and_names_it(long seed) {
        RandomAlarms story = RandomAlarms.of(seed, true);

        List<Told> all = played(story, each -> {}, () -> false);

        List<Notification> told = messages(all).toList();
        for (Told each : all) {
            Notification folded = each.message();
            boolean isLate = each.step() == story.steps().size(); // what stands for it comes later
            if (folded.foldedInto().isPresent() && !isLate) {
                List<Notification> standIns =
                        told.stream()
                                .filter(other -> other.route().equals(folded.route()))
                                .filter(other -> other.id().equals(folded.foldedInto().get()))
                                .toList();
                assertThat(standIns).as("%s", folded.foldedInto()).hasSize(1);
                assertThat(standIns.get(0).foldedInto()).isEmpty();
                if (!isCall(standIns.get(0))) {
                    assertThat(named(standIns.get(0))).containsOnlyOnce(folded.id());
                }
            }
        }
    }

    /** Whether it tells of one alarm, and can stand only for others of the same cause. */
    private static boolean isCall(Notification message) {
        return message.about() instanceof Changed
                || message.about() instanceof Alone
                || message.about() instanceof OutageCall;
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void one_call_stands_only_for_others_of_its_machine_and_cause_that_are_no_graver(long seed) {
        RandomAlarms story = RandomAlarms.of(seed, true);
        Map<String, Notification> calls = new HashMap<>();

        List<Told> told = played(story, each -> {}, () -> false);

        messages(told)
                .filter(each -> isCall(each) && each.foldedInto().isEmpty())
                .forEach(each -> calls.put(each.route() + " " + each.id(), each));
        List<Notification> folded =
                messages(told)
                        .filter(each -> calls.containsKey(each.route() + " " + into(each)))
                        .toList();
        for (Notification each : folded) {
            Notification call = calls.get(each.route() + " " + into(each));
            assertThat(call.about().kind()).isEqualTo(Message.Purpose.CALL);
            if (call.about() instanceof OutageCall outage) {
                assertThat(isOfSilence(each)).isTrue();
                assertThat(outage.channels()).hasSizeGreaterThan(1);
                continue;
            }
            assertThat(call.about().machine()).isEqualTo(each.about().machine());
            assertThat(call.about().alarmId()).isNotEqualTo(each.about().alarmId());
            assertThat(cause(call)).isEqualTo(cause(each)).isPresent();
            assertThat(each.about().grade()).isNotEqualTo(Grade.CRITICAL);
            assertThat(call.about().grade()).isGreaterThanOrEqualTo(each.about().grade());
        }
    }

    private static boolean isOfSilence(Notification message) {
        return message.about() instanceof Changed changed
                && changed.change().finding().rule() == Rule.SIGNAL_MISSING;
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void what_was_told_with_another_calls_when_none_that_called_stands_for_it(long seed) {
        RandomAlarms story = RandomAlarms.of(seed, true);
        List<Told> told = played(story, each -> {}, () -> false);
        TogetherOrAlone model = new TogetherOrAlone(story.site());

        int next = 0;
        for (int step = 0; step <= story.steps().size(); step++) {
            List<Notification> now = new ArrayList<>();
            for (; next < told.size() && told.get(next).step() == step; next++) {
                now.add(told.get(next).message());
            }
            Optional<RandomAlarms.Step> moment = story.steps().stream().skip(step).findFirst();
            long at =
                    moment.map(RandomAlarms.Step::atMicros).orElse(model.atMicros() + LONG_ENOUGH);
            assertThat(model.missingAt(at, now)).isEmpty();
            model.after(at, moment.flatMap(RandomAlarms.Step::changed), now);
        }
    }

    private static String into(Notification message) {
        return message.foldedInto().orElse("");
    }

    private static Optional<Cause> cause(Notification call) {
        return TogetherOrAlone.cause(
                call.about() instanceof Changed changed
                        ? changed.why()
                        : ((Alone) call.about()).why());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void no_route_is_told_anything_twice(long seed) {
        RandomAlarms story = RandomAlarms.of(seed, true);

        List<Notification> told = messages(played(story, each -> {}, () -> false)).toList();

        assertThat(told)
                .filteredOn(each -> !(each.about() instanceof Day))
                .extracting(each -> each.route() + " " + each.id())
                .doesNotHaveDuplicates();
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void all_of_it_some_days_later_is_told_so_many_days_later(long seed) {
        RandomAlarms story = RandomAlarms.of(seed, false);
        int days = 7 + (int) (seed % 3);
        long shift = days * RandomAlarms.DAY;

        List<Told> before = played(story, told -> {}, () -> false);
        List<Told> later = played(story.later(shift), told -> {}, () -> false);

        assertThat(later.stream().map(told -> sketch(told.message())))
                .isEqualTo(
                        before.stream()
                                .map(Told::message)
                                .map(
                                        message ->
                                                new Notification(
                                                        later(message.id(), days),
                                                        message.route(),
                                                        message.atMicros() + shift,
                                                        message.about(),
                                                        message.foldedInto()
                                                                .map(id -> later(id, days))))
                                .map(AnnunciatorLawsTest::sketch)
                                .toList());
    }

    /** What does not say when; that is in the id and the time. */
    private static String sketch(Notification message) {
        About about = message.about();
        return String.join(
                " ",
                message.id(),
                message.route(),
                String.valueOf(message.atMicros()),
                message.foldedInto().orElse(""),
                about.machine(),
                about.event(),
                about.grade().name(),
                about.kind().name(),
                String.valueOf(named(message).size()));
    }

    /** Dates stand in the ids of messages that are not about one alarm. */
    private static String later(String id, int days) {
        String[] parts = id.split("/", -1);
        for (int i = 0; i < parts.length; i++) {
            if (parts[i].matches("\\d{4}-\\d\\d-\\d\\d")) {
                parts[i] = LocalDate.parse(parts[i]).plusDays(days).toString();
            } else if (parts[i].matches("\\d{8}T\\d{6}Z")) {
                parts[i] = LocalDateTime.parse(parts[i], WINDOW).plusDays(days).format(WINDOW);
            }
        }
        return String.join("/", parts);
    }

    private static List<String> named(Notification standIn) {
        if (standIn.about() instanceof More more) {
            return more.parts().stream().map(More.Part::id).toList();
        }
        if (standIn.about() instanceof OutageOver over) {
            return over.messages();
        }
        if (standIn.about() instanceof Digest digest) {
            return digest.entries().stream()
                    .flatMap(entry -> entry.changes().stream())
                    .map(Changed::id)
                    .toList();
        }
        return List.of();
    }

    private static Stream<Notification> messages(List<Told> told) {
        return told.stream().map(Told::message);
    }

    private interface Heard {
        void heard(Notification message);
    }

    private interface Cut {
        boolean here();
    }

    /** Plays a story to its end, and on until nothing waits. */
    private static List<Told> played(RandomAlarms story, Heard heard, Cut cut) {
        List<RandomAlarms.Step> steps = new ArrayList<>(story.steps());
        long end = steps.get(steps.size() - 1).atMicros() + LONG_ENOUGH;
        steps.add(new RandomAlarms.Step(end, Optional.empty(), Optional.empty(), false));
        Wording wording = new Wording(story.site());
        List<Told> told = new ArrayList<>();
        Annunciator annunciator = new Annunciator(story.site());
        for (int i = 0; i < steps.size(); i++) {
            int step = i;
            for (Occasion occasion : occasions(steps.get(step), told, annunciator, wording)) {
                if (cut.here()) {
                    annunciator = Annunciator.restore(story.site(), annunciator.snapshot());
                }
                annunciator.feed(
                        occasion,
                        message -> {
                            told.add(new Told(step, message));
                            heard.heard(message);
                        });
            }
        }
        return told;
    }

    private static List<Occasion> occasions(
            RandomAlarms.Step step, List<Told> told, Annunciator annunciator, Wording wording) {
        long now = step.atMicros();
        List<Occasion> occasions = new ArrayList<>();
        occasions.add(new Occasion.Passed(now));
        for (DayReports.Report report : annunciator.asks(now)) {
            List<MachineDay> days =
                    report.machines().stream()
                            .map(each -> new MachineDay(each, 3, 1, OptionalLong.empty()))
                            .toList();
            occasions.add(new Occasion.DayCounted(report, days, now));
        }
        step.run().ifPresent(occasions::add);
        step.changed().ifPresent(occasions::add);
        if (step.givesUp() && !told.isEmpty()) {
            Message last = wording.message(told.get(told.size() - 1).message());
            occasions.add(new Occasion.GivenUp(List.of(last), "gone", now));
        }
        return occasions;
    }
}
