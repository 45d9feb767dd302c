package leat.service;

import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.config.RoutePolicy;
import leat.config.Site;
import leat.deliver.Addressed;
import leat.deliver.Dispatch;
import leat.deliver.FloodWording;
import leat.deliver.Folded;
import leat.deliver.Message;
import leat.deliver.Owed;
import leat.deliver.Reminders;
import leat.deliver.Unanswered;
import leat.store.Batch;
import leat.store.FoldedMessage;
import leat.store.OwedMessage;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import leat.store.Told;

/**
 * What a change of an alarm owes to whom. Remembers which routes were told of an alarm that is not
 * over, so that they also hear of its end. Confined to the engine thread.
 */
final class Mail {

    private final Dispatch dispatch;
    private final Set<Told> told;
    private final Reminders reminders;
    private final Flood flood;
    private final Daily daily;
    private final FloodWording floodWording;
    private final Map<String, RoutePolicy> policies = new HashMap<>();
    private final Map<String, Unanswered> unanswered = new LinkedHashMap<>();

    /** The last reminder owed of each alarm; lost in a restart, when the outbox knows it. */
    private final Map<Told, String> reminded = new HashMap<>();

    /**
     * @param told what was told, in earlier runs, of alarms that still stand
     */
    Mail(Site site, Collection<Told> told) {
        this(site, told, new Flood(List.of(), List.of()));
    }

    private Mail(Site site, Collection<Told> told, Flood flood) {
        this.flood = flood;
        daily = new Daily(site);
        floodWording = new FloodWording(site);
        site.routes().forEach(r -> policies.put(r.name(), r.scope().policy()));
        dispatch = new Dispatch(site);
        this.told = new HashSet<>(told);
        reminders = new Reminders(site);
    }

    /** Goes on from what the store holds of earlier runs. */
    static Mail takenUp(Site site, StoreReader reader) {
        Mail mail =
                new Mail(
                        site,
                        reader.told(),
                        new Flood(reader.latestMessages(), reader.pendingFolds()));
        for (StoredAlarm standing : reader.standingAlarms()) {
            reader.alarmHistory(standing.change().alarmId())
                    .forEach(alarm -> mail.follow(alarm.machine(), alarm.change()));
        }
        return mail;
    }

    private void follow(String machine, AlarmChange change) {
        String id = change.alarmId();
        Optional<Unanswered> before = Optional.ofNullable(unanswered.get(id));
        Optional<Unanswered> after = Unanswered.after(before, machine, change);
        if (after.isPresent()) {
            unanswered.put(id, after.get());
        } else {
            unanswered.remove(id);
            reminded.keySet().removeIf(t -> t.alarmId().equals(id));
        }
    }

    /** The reports of the day, when it is time. */
    void daily(long nowMicros, Daily.Days days, Batch batch) {
        daily.due(nowMicros, days).forEach(each -> batch.owes(owedMessage(each)));
    }

    /** The calls that have fallen due because nobody answers; each is owed once. */
    private void reminders(long nowMicros, Batch batch) {
        for (Unanswered alarm : unanswered.values()) {
            String id = alarm.latest().alarmId();
            List<Addressed> due =
                    reminders.due(
                            alarm,
                            nowMicros,
                            (route, message) -> message.equals(reminded.get(new Told(route, id))));
            for (Addressed each : due) {
                Told to = new Told(each.route(), id);
                reminded.put(to, each.message().id());
                told.add(to);
                batch.owes(owedMessage(each));
            }
        }
    }

    /** What the change of an alarm owes to whom. */
    void owe(String machine, AlarmChange change, Batch batch) {
        follow(machine, change);
        List<Addressed> addressed =
                dispatch.owed(machine, change, (route, id) -> told.contains(new Told(route, id)));
        addressed.forEach(a -> told.add(new Told(a.route(), change.alarmId())));
        if (change.to() == AlarmState.NORMAL) {
            told.removeIf(t -> t.alarmId().equals(change.alarmId()));
        }
        addressed.forEach(a -> put(owedMessage(a), batch));
    }

    private void put(OwedMessage message, Batch batch) {
        OptionalInt atMost = policies.get(message.route()).atMost();
        Optional<String> into =
                atMost.isPresent() ? flood.foldsInto(message, atMost.getAsInt()) : Optional.empty();
        into.ifPresentOrElse(
                id -> batch.folds(new FoldedMessage(id, message)), () -> batch.owes(message));
    }

    /** A second has passed: what is owed because of the time alone. */
    void second(long nowMicros, Batch batch) {
        for (Folded folded : flood.over(nowMicros)) {
            Message message = floodWording.message(folded, nowMicros);
            batch.owes(owedMessage(new Addressed(folded.route(), message)));
        }
        reminders(nowMicros, batch);
    }

    /** The notices that other routes get when one has given messages up. */
    List<OwedMessage> givenUp(List<Owed> messages, String reason, long atMicros) {
        return dispatch.undelivered(messages, reason, atMicros).stream()
                .map(Mail::owedMessage)
                .toList();
    }

    static Message.Kind kind(OwedMessage.Kind stored) {
        return switch (stored) {
            case CALL -> Message.Kind.CALL;
            case NEWS -> Message.Kind.NEWS;
            case NOTICE -> Message.Kind.NOTICE;
        };
    }

    private static OwedMessage.Kind stored(Message.Kind kind) {
        return switch (kind) {
            case CALL -> OwedMessage.Kind.CALL;
            case NEWS -> OwedMessage.Kind.NEWS;
            case NOTICE -> OwedMessage.Kind.NOTICE;
        };
    }

    private static OwedMessage owedMessage(Addressed addressed) {
        return new OwedMessage(
                addressed.message().id(),
                addressed.route(),
                addressed.message().machine(),
                addressed.message().alarmId(),
                addressed.message().grade(),
                addressed.message().atMicros(),
                addressed.message().topic(),
                stored(addressed.message().kind()),
                addressed.message().event(),
                addressed.message().subject(),
                addressed.message().text(),
                addressed.message().json());
    }
}
