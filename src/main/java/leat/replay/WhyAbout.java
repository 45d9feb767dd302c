package leat.replay;

import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.diagnose.Observation;
import leat.report.Shown;
import leat.rule.RunVerdict.Mark;
import leat.store.JournalLine;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import leat.store.StoredStartup;
import leat.watch.Recollection;

/**
 * What somebody wants to know the reason of.
 *
 * @param machine its name
 * @param start whose curve shows it; empty where none was measured
 * @param sinceMicros the starts that count: the one in which this time lies, and those after it
 * @param alarm the alarm that is asked about
 */
public record WhyAbout(
        String machine,
        Optional<StoredStartup> start,
        long sinceMicros,
        Optional<StoredAlarm> alarm) {

    /** One start: it alone counts. */
    public static WhyAbout start(StoredStartup start) {
        return new WhyAbout(
                start.machine(),
                Optional.of(start),
                start.startup().startedAtMicros(),
                Optional.empty());
    }

    /** A machine: its last starts count together. */
    public static WhyAbout machine(String name, StoreReader reader) {
        return new WhyAbout(
                name, lastStart(name, Long.MAX_VALUE, reader), Long.MIN_VALUE, Optional.empty());
    }

    /** An alarm: what was seen since its condition came counts. */
    public static WhyAbout alarm(StoredAlarm alarm, StoreReader reader) {
        long raised = alarm.change().raisedAtMicros();
        return new WhyAbout(
                alarm.machine(),
                lastStart(alarm.machine(), raised + 1, reader),
                Math.min(raised, alarm.change().finding().sinceMicros()),
                Optional.of(alarm));
    }

    private static Optional<StoredStartup> lastStart(
            String machine, long beforeMicros, StoreReader reader) {
        return reader
                .startups(StartupQuery.newest(1).of(machine).between(Long.MIN_VALUE, beforeMicros))
                .stream()
                .findFirst();
    }

    /** What counts of what was seen. */
    List<Observation> counted(Recollection seen) {
        return isOfOneStart()
                ? seen.of(start.orElseThrow().startup()).stream().toList()
                : seen.since(sinceMicros);
    }

    /** Whether what stands in a line of the journal was done after what is asked about. */
    boolean isBefore(JournalLine line) {
        if (alarm.isPresent()) {
            return line.atMicros() > alarm.get().change().raisedAtMicros();
        }
        return isOfOneStart() && line.seq() > start.orElseThrow().seq();
    }

    /** Whether a pressure was called for: then the machine is hardly sound. */
    boolean isCalled() {
        return alarm.map(each -> !each.change().finding().rule().isAboutSignal())
                .or(() -> start.map(WhyAbout::mark).map(m -> m.compareTo(Mark.ADVISORY) >= 0))
                .orElse(false);
    }

    private static Mark mark(StoredStartup start) {
        return start.run().map(run -> run.verdict().mark()).orElse(start.verdict().mark());
    }

    private boolean isOfOneStart() {
        return alarm.isEmpty() && sinceMicros != Long.MIN_VALUE;
    }

    /** How the command {@code leat answer} is told what is meant. */
    public String answered() {
        return alarm.map(each -> Long.toString(each.number()))
                .or(() -> start.map(StoredStartup::name).filter(name -> isOfOneStart()))
                .orElse(machine);
    }

    public String heading(Shown shown) {
        if (alarm.isPresent()) {
            AlarmChange change = alarm.get().change();
            return shown.say(
                    "screen.alarm",
                    Long.toString(alarm.get().number()),
                    shown.findings().what(change.finding()),
                    shown.time(change.raisedAtMicros()),
                    machine);
        }
        return isOfOneStart()
                ? shown.say("screen.start", start.orElseThrow().name(), started(shown))
                : shown.say("screen.machine", machine);
    }

    private String started(Shown shown) {
        return shown.time(start.orElseThrow().startup().startedAtMicros());
    }

    /**
     * What else there is to know: which curve is shown, where that is not plain, and that nothing
     * was seen, or that a silent channel has no cause in the line.
     */
    public List<String> notes(Diagnosis why, Shown shown) {
        if (alarm.filter(each -> each.change().finding().isOfSilence()).isPresent()) {
            return List.of(shown.say("screen.silent"));
        }
        if (why.observations() == 0) {
            return List.of(shown.say("screen.nothing-seen"));
        }
        return isOfOneStart() || start.isEmpty()
                ? List.of()
                : List.of(shown.say("screen.curve", start.orElseThrow().name(), started(shown)));
    }
}
