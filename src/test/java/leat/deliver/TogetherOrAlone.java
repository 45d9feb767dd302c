package leat.deliver;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Suspect;
import leat.store.Message;

/**
 * What must not be forgotten of alarms that were told in the call of another, found out the simple
 * way: after each change it looks at every alarm and every route anew. Confined to one test.
 */
final class TogetherOrAlone {

    private final Site site;
    private final Map<String, Changed> standing = new HashMap<>();

    /** Route and alarm, for each whose last call came by itself, in a flood or in a digest. */
    private final Set<String> called = new HashSet<>();

    /** Route and alarm, for each whose last call was that of another. */
    private final Set<String> withAnother = new HashSet<>();

    /**
     * Route and id of the calls about channels that fell silent together: nobody is alone there.
     */
    private final Set<String> outages = new HashSet<>();

    /** Route and id of the call that is due a minute after this time. */
    private final Map<String, Long> alone = new HashMap<>();

    private long atMicros;

    TogetherOrAlone(Site site) {
        this.site = site;
    }

    long atMicros() {
        return atMicros;
    }

    /**
     * The calls that nobody stands for any more, route and id, after those have come that were due.
     */
    List<String> missingAt(long micros, List<Notification> told) {
        told.stream().filter(each -> each.about() instanceof Alone).forEach(this::heard);
        alone.keySet().retainAll(lonely());
        return alone.entrySet().stream()
                .filter(each -> Math.abs(micros - each.getValue()) >= RandomAlarms.MINUTE)
                .map(Map.Entry::getKey)
                .toList();
    }

    void after(long micros, Optional<Changed> changed, List<Notification> told) {
        atMicros = micros;
        told.forEach(this::heard);
        changed.ifPresent(this::stands);
        List<String> now = lonely();
        alone.keySet().retainAll(now);
        now.forEach(each -> alone.putIfAbsent(each, micros));
    }

    private List<String> lonely() {
        List<String> lonely = new ArrayList<>();
        for (RouteSettings route : site.routes()) {
            for (Changed alarm : standing.values()) {
                if (isAlone(route, alarm)) {
                    lonely.add(route.name() + " " + alarm.id() + "/alone/1");
                }
            }
        }
        return lonely;
    }

    private void stands(Changed changed) {
        Optional<Diagnosis> before =
                Optional.ofNullable(standing.get(changed.alarmId())).flatMap(Changed::why);
        Optional<Diagnosis> why =
                changed.change().event() == AlarmEvent.RAISED
                        ? changed.why()
                        : changed.why().or(() -> before);
        standing.put(changed.alarmId(), new Changed(changed.machine(), changed.change(), why));
        if (changed.change().to() == AlarmState.NORMAL) {
            standing.remove(changed.alarmId());
            String whoever = " " + changed.alarmId();
            called.removeIf(key -> key.endsWith(whoever));
            withAnother.removeIf(key -> key.endsWith(whoever));
        }
    }

    private void heard(Notification message) {
        if (message.about().kind() != Message.Purpose.CALL
                || message.about() instanceof Again
                || message.about() instanceof More) {
            return;
        }
        String key = message.route() + " " + message.about().alarmId();
        if (message.about() instanceof OutageCall) {
            outages.add(message.route() + " " + message.id());
        }
        boolean byItself =
                message.foldedInto()
                        .map(
                                into ->
                                        into.contains("/more/")
                                                || into.startsWith("digest/")
                                                || outages.contains(message.route() + " " + into))
                        .orElse(true);
        (byItself ? called : withAnother).add(key);
        (byItself ? withAnother : called).remove(key);
    }

    private boolean isAlone(RouteSettings route, Changed alarm) {
        return withAnother.contains(route.name() + " " + alarm.alarmId())
                && alarm.change().to() == AlarmState.UNACKNOWLEDGED
                && alarm.grade().isAtLeast(route.scope().atLeast())
                && standing.values().stream()
                        .filter(other -> called.contains(route.name() + " " + other.alarmId()))
                        .noneMatch(other -> covers(other, alarm));
    }

    private static boolean covers(Changed other, Changed alarm) {
        return other.machine().equals(alarm.machine())
                && other.change().to().isActive()
                && other.grade().isAtLeast(alarm.grade())
                && cause(other.why()).isPresent()
                && cause(other.why()).equals(cause(alarm.why()));
    }

    /** The cause that a diagnosis is sure of. */
    static Optional<Cause> cause(Optional<Diagnosis> why) {
        return why.map(Diagnosis::first)
                .filter(first -> first.weight() >= 0.5 && first.cause() != Cause.UNKNOWN)
                .map(Suspect::cause);
    }
}
