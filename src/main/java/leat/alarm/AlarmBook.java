package leat.alarm;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Findings;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/** The alarms of one machine, one per rule and channel. Thread-confined to its watch. */
public final class AlarmBook implements Findings {

    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

    private final String machine;
    private final Consumer<AlarmChange> changes;

    /** Ordered by key, so that a state written down twice is the same bytes. */
    private final Map<String, Alarm> byKey = new TreeMap<>();

    private long occurrences;

    /**
     * @param machine name of the machine, first part of every id
     * @param changes told of each change, after the state has changed
     */
    public AlarmBook(String machine, Consumer<AlarmChange> changes) {
        this.machine = machine;
        this.changes = changes;
    }

    @Override
    public void found(Finding finding) {
        String key = key(finding.rule(), finding.channel());
        Alarm alarm = byKey.get(key);
        if (alarm == null || !alarm.state().isActive()) {
            raise(key, Optional.ofNullable(alarm), finding);
            return;
        }
        boolean worse = finding.grade().compareTo(alarm.finding().grade()) > 0;
        change(
                key,
                alarm,
                worse ? AlarmEvent.WORSENED : AlarmEvent.EASED,
                finding,
                finding.atMicros(),
                "");
    }

    @Override
    public void cleared(
            Rule rule,
            Channel channel,
            long atMicros,
            Figure inletPsi,
            Figure boostedPsi,
            String now) {
        String key = key(rule, channel);
        Alarm alarm = byKey.get(key);
        if (alarm == null || !alarm.state().isActive()) {
            return;
        }
        Finding last = alarm.finding().asOf(inletPsi, boostedPsi, now);
        change(key, alarm, AlarmEvent.RETURNED, last, atMicros, "");
    }

    /**
     * Somebody looks after an alarm.
     *
     * @return why it cannot be acknowledged; empty when it was
     */
    public Optional<String> acknowledge(Instruction.Acknowledge instruction) {
        for (Map.Entry<String, Alarm> entry : byKey.entrySet()) {
            Alarm alarm = entry.getValue();
            if (alarm.id().equals(instruction.alarmId())) {
                if (!alarm.state().needsAcknowledging()) {
                    return Optional.of(
                            "it is " + alarm.state().key() + ", nothing waits to be acknowledged");
                }
                change(
                        entry.getKey(),
                        alarm,
                        AlarmEvent.ACKNOWLEDGED,
                        alarm.finding(),
                        instruction.atMicros(),
                        instruction.by());
                return Optional.empty();
            }
        }
        return Optional.of(
                "no alarm with the id " + instruction.alarmId() + " waits to be acknowledged");
    }

    /** One that came back before anybody acknowledged it goes on under its id. */
    private void raise(String key, Optional<Alarm> before, Finding finding) {
        AlarmState from = before.map(Alarm::state).orElse(AlarmState.NORMAL);
        AlarmState to = after(from, AlarmEvent.RAISED);
        Alarm raised =
                before.filter(alarm -> alarm.state().needsAcknowledging())
                        .map(alarm -> alarm.again(to, finding))
                        .orElseGet(() -> first(key, to, finding));
        byKey.put(key, raised);
        tell(AlarmEvent.RAISED, from, raised, finding.atMicros(), "");
    }

    private Alarm first(String key, AlarmState state, Finding finding) {
        occurrences++;
        String id = machine + "." + key + "." + stamp(finding.atMicros()) + "-" + occurrences;
        return new Alarm(id, 1, state, finding.atMicros(), finding);
    }

    private void change(
            String key, Alarm alarm, AlarmEvent event, Finding finding, long atMicros, String by) {
        Alarm next = alarm.next(after(alarm.state(), event), finding);
        byKey.put(key, next);
        tell(event, alarm.state(), next, atMicros, by);
    }

    private void tell(AlarmEvent event, AlarmState from, Alarm alarm, long atMicros, String by) {
        changes.accept(
                new AlarmChange(
                        alarm.id(),
                        alarm.revision(),
                        event,
                        from,
                        alarm.state(),
                        atMicros,
                        alarm.raisedAtMicros(),
                        alarm.finding(),
                        by));
    }

    private static AlarmState after(AlarmState state, AlarmEvent event) {
        return Transitions.after(state, event)
                .orElseThrow(
                        () -> new IllegalStateException(event + " is not legal in state " + state));
    }

    private static String key(Rule rule, Channel channel) {
        return rule.isAboutSignal() ? rule.key() + "." + channel.key() : rule.key();
    }

    private static String stamp(long atMicros) {
        return STAMP.format(Instant.EPOCH.plus(atMicros, ChronoUnit.MICROS));
    }

    public void save(StateWriter out) {
        out.putLong(occurrences);
        out.putInt(byKey.size());
        byKey.forEach(
                (key, alarm) -> {
                    out.putText(key);
                    alarm.save(out);
                });
    }

    public void load(StateReader in) {
        occurrences = in.getLong();
        int count = in.getInt();
        for (int i = 0; i < count; i++) {
            String key = in.getText();
            byKey.put(key, Alarm.load(in));
        }
    }
}
