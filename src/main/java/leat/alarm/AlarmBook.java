package leat.alarm;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Findings;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.wire.State;

/**
 * The alarms of one machine, one per rule and channel: what conditions and time do to them. What
 * people do to them is in {@link AlarmOrders}. Thread-confined to its watch.
 */
public final class AlarmBook implements Findings {

    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

    private final String machine;
    private final Limits limits;
    private final Chatter.Measure measure;
    private final Consumer<AlarmChange> changes;

    /** Ordered by key, so that a state written down twice is the same bytes. */
    private Map<String, Alarm> byKey = new TreeMap<>();

    private final AlarmOrders orders;
    private boolean pressuresSuppressed;
    private long occurrences;

    /**
     * @param machine name of the machine, first part of every id
     * @param limits what chatters, what latches, how long a hold may last
     * @param changes told of each change, after the state has changed
     */
    public AlarmBook(String machine, Limits limits, Consumer<AlarmChange> changes) {
        this.machine = machine;
        this.limits = limits;
        this.changes = changes;
        measure = Chatter.Measure.of(limits);
        orders = new AlarmOrders(limits.micros(Limit.ALARM_LONGEST_HOLD), this::act);
    }

    @Override
    public void found(Finding finding) {
        String key = key(finding.rule(), finding.channel());
        Alarm alarm = byKey.get(key);
        if (alarm == null || !alarm.life().own().isActive()) {
            raise(key, Optional.ofNullable(alarm), finding);
        } else if (alarm.chatter().isOn()) {
            repeat(key, alarm, finding);
        } else {
            regrade(key, alarm, finding);
        }
        breakShelf(key, finding);
    }

    /** One that comes back before anybody acknowledged it, or soon, goes on under its id. */
    private void raise(String key, Optional<Alarm> before, Finding finding) {
        Chatter chatter = before.map(Alarm::chatter).orElse(Chatter.NONE).came(finding, measure);
        Alarm alarm =
                before.filter(known -> goesOn(known, finding.atMicros()))
                        .orElseGet(() -> first(key, finding, chatter));
        AlarmEvent event = chatter.isOn() ? AlarmEvent.CHATTERING : AlarmEvent.RAISED;
        Life life = alarm.life();
        if (pressuresSuppressed && !finding.rule().isAboutSignal()) {
            life = life.with(Hold.SUPPRESSED);
        }
        put(
                key,
                alarm,
                alarm.came(life.after(event), finding, limits.latches(finding), chatter),
                Act.of(event, finding.atMicros()));
    }

    private boolean goesOn(Alarm known, long atMicros) {
        return !known.life().isOver() || known.chatter().isRecent(atMicros, measure);
    }

    private Alarm first(String key, Finding finding, Chatter chatter) {
        occurrences++;
        String id = machine + "." + key + "." + stamp(finding.atMicros()) + "-" + occurrences;
        return Alarm.toBe(id, finding, chatter);
    }

    /** A slide from mild to grave is one coming; a grade that it had before is one more. */
    private void regrade(String key, Alarm alarm, Finding finding) {
        boolean worse = finding.grade().compareTo(alarm.finding().grade()) > 0;
        boolean again = worse && alarm.gravest().isAtLeast(finding.grade());
        Chatter chatter = again ? alarm.chatter().came(finding, measure) : alarm.chatter();
        AlarmEvent event = worse ? AlarmEvent.WORSENED : AlarmEvent.EASED;
        if (chatter.isOn()) {
            event = AlarmEvent.CHATTERING;
        }
        Life next = alarm.life().after(event);
        boolean latches = limits.latches(finding);
        put(
                key,
                alarm,
                again
                        ? alarm.came(next, finding, latches, chatter)
                        : alarm.changed(next, finding, latches, chatter),
                Act.of(event, finding.atMicros()));
    }

    /** While it chatters only what is graver than anything before is more than a number. */
    private void repeat(String key, Alarm alarm, Finding finding) {
        Grade held = alarm.finding().grade();
        Chatter before = alarm.chatter();
        Chatter chatter = before.found(finding);
        boolean worse = finding.grade().compareTo(held) > 0;
        boolean cameAgain =
                !before.present()
                        || finding.grade() == held && before.latest().orElseThrow().grade() != held;
        if (!worse && !cameAgain) {
            byKey.put(key, alarm.noting(chatter));
            return;
        }
        AlarmEvent event = worse ? AlarmEvent.WORSENED : AlarmEvent.REPEATED;
        Life next = alarm.life().after(event);
        boolean latches = limits.latches(finding);
        Finding stands = finding.grade().isAtLeast(held) ? finding : alarm.finding();
        put(
                key,
                alarm,
                cameAgain
                        ? alarm.came(next, stands, latches, chatter)
                        : alarm.changed(next, stands, latches, chatter),
                Act.of(event, finding.atMicros()));
    }

    /** Whoever shelved it knew of nothing as grave as this. */
    private void breakShelf(String key, Finding finding) {
        Alarm alarm = byKey.get(key);
        boolean graver =
                alarm.shelf().filter(s -> finding.grade().compareTo(s.upTo()) > 0).isPresent();
        if (graver) {
            act(
                    alarm,
                    Optional.empty(),
                    Act.because(Reason.GRAVER, AlarmEvent.UNSHELVED, finding.atMicros()));
        }
    }

    @Override
    public void cleared(
            Rule rule,
            Channel channel,
            long atMicros,
            Figure inletPsi,
            Figure boostedPsi,
            List<Remark> now) {
        String key = key(rule, channel);
        Alarm alarm = byKey.get(key);
        if (alarm == null || !alarm.life().own().isActive()) {
            return;
        }
        Finding last = alarm.finding().asOf(inletPsi, boostedPsi, now);
        if (alarm.chatter().isOn()) {
            byKey.put(key, alarm.noting(alarm.chatter().gone(last, atMicros)));
        } else {
            go(key, alarm, last, alarm.chatter(), atMicros);
        }
    }

    private void go(String key, Alarm alarm, Finding last, Chatter chatter, long atMicros) {
        AlarmEvent event = alarm.latching() ? AlarmEvent.LATCHED : AlarmEvent.RETURNED;
        put(
                key,
                alarm,
                alarm.went(alarm.life().after(event), last, chatter),
                Act.of(event, atMicros));
    }

    /** A second has passed: shelves whose time is over end, what has stopped chattering is told. */
    public void tick(long atMicros) {
        for (String key : List.copyOf(byKey.keySet())) {
            endShelf(byKey.get(key), atMicros);
            settle(key, byKey.get(key), atMicros);
        }
    }

    private void endShelf(Alarm alarm, long atMicros) {
        if (alarm.shelf().filter(s -> s.untilMicros() <= atMicros).isPresent()) {
            act(
                    alarm,
                    Optional.empty(),
                    Act.because(Reason.TIME_OVER, AlarmEvent.UNSHELVED, atMicros));
        }
    }

    private void settle(String key, Alarm alarm, long atMicros) {
        Chatter chatter = alarm.chatter();
        if (!chatter.hasSettled(atMicros, measure)) {
            return;
        }
        Finding latest = chatter.latest().orElseThrow();
        if (!chatter.present()) {
            go(key, alarm, latest, Chatter.NONE, atMicros);
            return;
        }
        Life next = alarm.life().after(AlarmEvent.SETTLED);
        Alarm settled = alarm.changed(next, alarm.finding(), false, Chatter.NONE);
        put(key, alarm, settled, Act.of(AlarmEvent.SETTLED, atMicros));
        if (latest.grade() != settled.finding().grade()) {
            put(
                    key,
                    settled,
                    settled.changed(next.after(AlarmEvent.EASED), latest, false, Chatter.NONE),
                    Act.of(AlarmEvent.EASED, atMicros));
        }
    }

    /**
     * Somebody does something to one alarm.
     *
     * @param instruction one whose order is about an alarm
     * @return why it cannot be done; empty when it was
     */
    public Optional<Refusal> follow(Instruction instruction) {
        Order.AboutAlarm order = (Order.AboutAlarm) instruction.order();
        for (Alarm alarm : byKey.values()) {
            if (alarm.id().equals(order.alarmId())) {
                return orders.follow(alarm, instruction, order);
            }
        }
        return Optional.of(new Refusal.NoSuchAlarm(order.alarmId()));
    }

    /** From now on the alarms about pressures are suppressed by design. */
    void suppressPressures(ServiceChange begin) {
        pressuresSuppressed = true;
        for (Alarm alarm : List.copyOf(byKey.values())) {
            if (!alarm.finding().rule().isAboutSignal() && !alarm.life().isOver()) {
                act(alarm, alarm.shelf(), Act.by(begin, AlarmEvent.SUPPRESSED));
            }
        }
    }

    /** The suppression ends; what is active is called out. */
    void releasePressures(ServiceChange end) {
        pressuresSuppressed = false;
        for (Alarm alarm : List.copyOf(byKey.values())) {
            if (alarm.life().has(Hold.SUPPRESSED)) {
                act(alarm, alarm.shelf(), Act.by(end, AlarmEvent.RELEASED));
            }
        }
    }

    /** The rules about pressures whose finding is of this time or later and stands. */
    List<Rule> pressuresFoundSince(long sinceMicros) {
        return byKey.values().stream()
                .filter(alarm -> alarm.life().own().isActive())
                .map(Alarm::finding)
                .filter(f -> !f.rule().isAboutSignal() && f.atMicros() >= sinceMicros)
                .map(Finding::rule)
                .toList();
    }

    /** The clock was set. Each alarm has stood for as long as before; no shelf becomes longer. */
    public void step(long fromMicros, long atMicros) {
        for (String key : List.copyOf(byKey.keySet())) {
            Alarm before = byKey.get(key);
            Alarm alarm =
                    before.moved(
                            atMicros - fromMicros,
                            before.chatter().afterStep(fromMicros, atMicros));
            byKey.put(key, alarm);
            alarm.shelf()
                    .map(s -> new Shelf(atMicros + s.untilMicros() - fromMicros, s.upTo()))
                    .filter(s -> s.untilMicros() < alarm.shelf().orElseThrow().untilMicros())
                    .ifPresent(
                            shorter ->
                                    act(
                                            alarm,
                                            Optional.of(shorter),
                                            Act.because(
                                                    Reason.CLOCK_SET_BACK,
                                                    AlarmEvent.SHELVED,
                                                    atMicros)));
        }
    }

    /** What happens to an alarm without its condition changing. */
    private void act(Alarm alarm, Optional<Shelf> shelf, Act act) {
        String key = key(alarm.finding().rule(), alarm.finding().channel());
        put(key, alarm, alarm.handled(alarm.life().after(act.event()), shelf), act);
    }

    private void put(String key, Alarm before, Alarm after, Act act) {
        byKey.put(key, after);
        changes.accept(
                new AlarmChange(
                        after.id(),
                        after.revision(),
                        act.event(),
                        before.life().shown(),
                        after.life().shown(),
                        act.atMicros(),
                        after.raisedAtMicros(),
                        after.finding(),
                        act.by(),
                        after.notes(act)));
    }

    private static String key(Rule rule, Channel channel) {
        return rule.isAboutSignal() ? rule.key() + "." + channel.key() : rule.key();
    }

    private static String stamp(long atMicros) {
        return STAMP.format(Instant.EPOCH.plus(atMicros, ChronoUnit.MICROS));
    }

    /** For a test that has to see more than what is told. */
    Map<String, Alarm> alarms() {
        return byKey;
    }

    public void keep(State state) {
        pressuresSuppressed = state.keep("pressuresSuppressed", pressuresSuppressed);
        occurrences = state.keep("occurrences", occurrences);
        byKey = new TreeMap<>(state.keep("alarms", Alarm.class, byKey));
    }
}
