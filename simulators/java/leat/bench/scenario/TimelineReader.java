package leat.bench.scenario;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import leat.bench.line.Fault;
import leat.bench.sensor.SensorFault;
import leat.bench.sensor.Tap;
import org.snakeyaml.engine.v2.nodes.Node;

/** Reads the events of a machine's timeline. */
final class TimelineReader {

    /** Ten years. */
    static final double LONGEST_SECONDS = 520 * 7 * 86_400.0;

    private static final Set<String> EVENT =
            Set.of(
                    "at",
                    "do",
                    "fault",
                    "repair",
                    "severity",
                    "tap",
                    "psi",
                    "percent",
                    "over",
                    "growth");
    private static final List<String> SIZES = List.of("severity", "psi", "percent");
    private static final double MOST_PSI = 100;
    private static final double MOST_PERCENT = 50;

    private final String file;
    private final List<String> problems;
    private final Duration duration;

    TimelineReader(String file, List<String> problems, Duration duration) {
        this.file = file;
        this.problems = problems;
        this.duration = duration;
    }

    Optional<Event> event(Node node) {
        Fields fields = new Fields(file, node, EVENT, problems);
        Duration at = fields.time("at", 0, LONGEST_SECONDS);
        if (at.compareTo(duration) >= 0) {
            fields.problem("this event comes after the end of the scenario");
        }
        List<String> kinds = Stream.of("do", "fault", "repair").filter(fields::has).toList();
        if (kinds.size() != 1) {
            fields.problem("an event needs exactly one of do, fault, repair");
            return Optional.empty();
        }
        String kind = kinds.get(0);
        String word = fields.text(kind);
        Optional<? extends Event.Action> action =
                kind.equals("do") ? switching(fields, word) : defect(fields, kind, word);
        return action.map(done -> new Event(at, done));
    }

    private static Optional<Event.Action> switching(Fields fields, String word) {
        noTap(fields, word);
        noSize(fields, word, "");
        return switch (word) {
            case "start" -> Optional.of(new Event.Start());
            case "stop" -> Optional.of(new Event.Stop());
            case "cut" -> Optional.of(new Event.Cut());
            case "pause" -> Optional.of(new Event.Pause());
            default -> {
                fields.problem("do is \"" + word + "\", allowed are start, stop, cut, pause");
                yield Optional.empty();
            }
        };
    }

    private static Optional<Event.Action> defect(Fields fields, String kind, String word) {
        Optional<SensorFault> ofSensor = SensorFault.byKey(word);
        if (ofSensor.isPresent()) {
            return tap(fields)
                    .map(
                            tap ->
                                    action(
                                            fields,
                                            kind,
                                            word,
                                            new Defect.OfTransducer(tap, ofSensor.get()),
                                            ofSensor.get().unit()));
        }
        noTap(fields, word);
        if (word.equals(Defect.SWAPPED)) {
            return Optional.of(action(fields, kind, word, new Defect.Swapped(), ""));
        }
        Optional<Fault> ofLine = Fault.byKey(word);
        if (ofLine.isEmpty()) {
            fields.problem(kind + " is \"" + word + "\", allowed are " + known());
        }
        return ofLine.map(
                fault ->
                        action(
                                fields,
                                kind,
                                word,
                                new Defect.OfLine(fault),
                                fault.isGraded() ? "severity" : ""));
    }

    private static Event.Action action(
            Fields fields, String kind, String word, Defect defect, String size) {
        if (kind.equals("repair")) {
            noSize(fields, "a repair", "");
            return new Event.Repair(defect);
        }
        noSize(fields, word, size);
        return new Event.Strike(defect, course(fields, size));
    }

    private static Course course(Fields fields, String size) {
        return switch (size) {
            case "severity" -> fields.course(size, 0, 1);
            case "psi" -> fields.course(size, -MOST_PSI, MOST_PSI);
            case "percent" -> fields.course(size, -MOST_PERCENT, MOST_PERCENT);
            default -> Course.steady(1);
        };
    }

    private static Optional<Tap> tap(Fields fields) {
        String key = fields.text("tap");
        Optional<Tap> tap = Tap.byKey(key);
        if (tap.isEmpty() && fields.has("tap")) {
            List<String> taps = Stream.of(Tap.values()).map(Tap::key).toList();
            fields.problem("tap is \"" + key + "\", allowed are " + String.join(", ", taps));
        }
        return tap;
    }

    private static void noTap(Fields fields, String what) {
        if (fields.has("tap")) {
            List<String> keys = Stream.of(SensorFault.values()).map(SensorFault::key).toList();
            fields.problem(
                    what + " has no tap, only " + String.join(", ", keys) + " are of one tap");
        }
    }

    /** Refuses every size but the one that this has. */
    private static void noSize(Fields fields, String what, String wanted) {
        for (String size : SIZES) {
            if (!size.equals(wanted) && fields.has(size)) {
                fields.problem(what + " has no " + size);
            }
        }
        for (String extra : List.of("over", "growth")) {
            if (wanted.isEmpty() && fields.has(extra)) {
                fields.problem(what + " does not grow, it has no " + extra);
            }
        }
    }

    private static String known() {
        List<String> known = new ArrayList<>();
        Stream.of(Fault.values()).map(Fault::key).forEach(known::add);
        Stream.of(SensorFault.values()).map(SensorFault::key).forEach(known::add);
        known.add(Defect.SWAPPED);
        return String.join(", ", known);
    }
}
