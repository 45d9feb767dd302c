package leat.deliver;

import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmEvent;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Suspect;
import leat.rule.Finding;
import leat.rule.Grade;

/**
 * Alarms of one machine that come of one cause are one call: the first tells, and stands for those
 * that follow while it is there. The figures are leat's own choice. Pure functions.
 */
final class OneCause {

    /** From this weight on a cause counts as the cause; two that share it cannot both be others. */
    private static final double SURE = 0.5;

    /** As long as one look at the machine takes, and as long as a flood is counted for. */
    private static final long TOGETHER_MICROS = 600_000_000;

    /** Alarms of one cause seldom go in the same second. */
    private static final long GOING_MICROS = 60_000_000;

    /** The same before and after a restart. */
    static final Comparator<StandingAlarm> GRAVEST_FIRST =
            Comparator.<StandingAlarm, Grade>comparing(
                            alarm -> alarm.latest().finding().grade(), Comparator.reverseOrder())
                    .thenComparing(alarm -> alarm.latest().raisedAtMicros())
                    .thenComparing(alarm -> alarm.latest().alarmId());

    private OneCause() {}

    /**
     * The alarm whose call stands for that of an alarm that has just come or got worse.
     *
     * @param runningSince since when the machine has been running; empty when it is not
     */
    static Optional<StandingAlarm> leader(
            StandingAlarm alarm, Collection<StandingAlarm> standing, OptionalLong runningSince) {
        AlarmEvent event = alarm.latest().event();
        if (event != AlarmEvent.RAISED && event != AlarmEvent.WORSENED) {
            return Optional.empty();
        }
        return standing.stream()
                .filter(other -> isTogether(other, alarm, runningSince))
                .filter(other -> covers(other, alarm))
                .min(GRAVEST_FIRST);
    }

    /**
     * Another that can take over, when the one that stood for an alarm does so no more: every route
     * that was not called for this one was called for that.
     */
    static Optional<StandingAlarm> heir(StandingAlarm alarm, Collection<StandingAlarm> standing) {
        return standing.stream()
                .filter(other -> covers(other, alarm))
                .filter(
                        other ->
                                alarm.told().keySet().stream()
                                        .filter(alarm::isToldWithAnother)
                                        .allMatch(route -> isCalled(route, other, alarm)))
                .min(GRAVEST_FIRST);
    }

    private static boolean isCalled(String route, StandingAlarm other, StandingAlarm alarm) {
        return other.toldTo(route).call().filter(call -> covers(call, alarm)).isPresent();
    }

    private static boolean isTogether(
            StandingAlarm earlier, StandingAlarm later, OptionalLong runningSince) {
        long raised = earlier.latest().raisedAtMicros();
        return Math.abs(later.latest().atMicros() - raised) <= TOGETHER_MICROS
                || runningSince.isPresent() && raised >= runningSince.getAsLong();
    }

    /**
     * Whether the call of one stands for that of the other. What is CRITICAL always calls, and so
     * does what is graver.
     */
    static boolean covers(StandingAlarm leader, StandingAlarm alarm) {
        Grade grade = alarm.latest().finding().grade();
        return leader.machine().equals(alarm.machine())
                && !leader.latest().alarmId().equals(alarm.latest().alarmId())
                && leader.under().isEmpty()
                && leader.told().keySet().stream().anyMatch(leader::wasCalled)
                && leader.latest().to().isActive()
                && leader.latest().finding().grade().isAtLeast(grade)
                && grade != Grade.CRITICAL
                && isOfOneSort(leader.latest().finding(), alarm.latest().finding())
                && of(alarm).isPresent()
                && of(alarm).equals(of(leader));
    }

    /** Two open loops are two faults: of signals only those of one channel. */
    private static boolean isOfOneSort(Finding one, Finding other) {
        return one.rule().isAboutSignal()
                ? other.rule().isAboutSignal() && one.channel() == other.channel()
                : !other.rule().isAboutSignal();
    }

    /** Whether a message told of that alarm's cause, and of nothing less grave. */
    static boolean covers(StandingAlarm.Call call, StandingAlarm alarm) {
        return call.isOwn()
                && call.grade().isAtLeast(alarm.latest().finding().grade())
                && call.cause().equals(of(alarm));
    }

    /** The cause of an alarm, where one is sure. */
    static Optional<Cause> of(StandingAlarm alarm) {
        return alarm.why()
                .map(Diagnosis::first)
                .filter(first -> first.weight() >= SURE)
                .map(Suspect::cause)
                .filter(Cause::isFault);
    }

    /** Whether so much time has passed that an alarm of the same cause would have gone too. */
    static boolean isLeft(StandingAlarm.Under under, long nowMicros) {
        OptionalLong over = under.overSinceMicros();
        return over.isPresent() && Math.abs(nowMicros - over.getAsLong()) >= GOING_MICROS;
    }
}
