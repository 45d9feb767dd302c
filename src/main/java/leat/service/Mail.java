package leat.service;

import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.deliver.Addressed;
import leat.deliver.Digest;
import leat.deliver.DigestLine;
import leat.deliver.DigestWording;
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
import leat.store.Told;

/**
 * What a change of an alarm owes to whom. Remembers which routes were told of an alarm that is not
 * over, so that they also hear of its end. Confined to the engine thread.
 */
final class Mail {

    /** The same order before and after a restart. */
    private static final Comparator<Unanswered> LONGEST_FIRST =
            Comparator.comparingLong(Unanswered::sinceMicros)
                    .thenComparing(alarm -> alarm.latest().alarmId());

    private final Dispatch dispatch;
    private final List<RouteSettings> routes;
    private final Set<Told> told = new HashSet<>();
    private final Reminders reminders;
    private final Flood flood;
    private final Digests digests;
    private final Daily daily;
    private final FloodWording floodWording;
    private final DigestWording digestWording;
    private final Map<String, RoutePolicy> policies = new HashMap<>();
    private final Map<String, Unanswered> unanswered = new LinkedHashMap<>();

    /** How each alarm stands that is not back to normal. */
    private final Map<String, StandingAlarm> standing = new LinkedHashMap<>();

    /** The last reminder owed of each alarm. */
    private final Map<Told, String> reminded = new HashMap<>();

    /** Knows nothing of earlier runs. */
    Mail(Site site) {
        this(site, PastMail.NONE);
    }

    private Mail(Site site, PastMail past) {
        routes = site.routes();
        routes.forEach(r -> policies.put(r.name(), r.scope().policy()));
        dispatch = new Dispatch(site);
        reminders = new Reminders(site);
        daily = new Daily(site);
        floodWording = new FloodWording(site);
        digestWording = new DigestWording(site);
        StandInIds ids = new StandInIds(past.standIns());
        flood = new Flood(past.latest(), past.floods(policies.keySet()), ids);
        digests = new Digests(site, past.toldAtOnce(), past.digests(policies.keySet()), ids);
        told.addAll(past.told());
        past.standing().forEach(alarm -> follow(alarm.machine(), alarm.change()));
        reminded.putAll(past.reminded());
    }

    /** Goes on from what the store holds of earlier runs. */
    static Mail takenUp(Site site, StoreReader reader) {
        return new Mail(site, PastMail.of(reader));
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
        if (change.to() == AlarmState.NORMAL) {
            standing.remove(id);
        } else {
            standing.put(id, new StandingAlarm(machine, change));
        }
    }

    /** The reports of the day, when it is time. */
    void daily(long nowMicros, Daily.Days days, Batch batch) {
        daily.due(nowMicros, days).forEach(each -> batch.owes(owedMessage(each)));
    }

    /** The calls that have fallen due because nobody answers; each is owed once. */
    private void reminders(long nowMicros, Batch batch) {
        List<Unanswered> alarms = unanswered.values().stream().sorted(LONGEST_FIRST).toList();
        for (Unanswered alarm : alarms) {
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
                put(owedMessage(each), batch);
            }
        }
    }

    /** What the change of an alarm owes to whom. */
    void owe(String machine, AlarmChange change, Batch batch) {
        follow(machine, change);
        List<Addressed> addressed =
                dispatch.owed(machine, change, (route, id) -> told.contains(new Told(route, id)));
        addressed.forEach(a -> told.add(new Told(a.route(), change.alarmId())));
        addressed.forEach(a -> put(owedMessage(a), batch));
        if (change.to() == AlarmState.NORMAL) {
            told.removeIf(t -> t.alarmId().equals(change.alarmId()));
            digests.over(change.alarmId());
        }
    }

    /** What can wait for the digest is no part of a flood. */
    private void put(OwedMessage message, Batch batch) {
        digests.foldsInto(message)
                .or(() -> floodsInto(message))
                .ifPresentOrElse(
                        id -> batch.folds(new FoldedMessage(id, message)),
                        () -> batch.owes(message));
    }

    private Optional<String> floodsInto(OwedMessage message) {
        OptionalInt atMost = policies.get(message.route()).atMost();
        return atMost.isPresent() ? flood.foldsInto(message, atMost.getAsInt()) : Optional.empty();
    }

    /** A second has passed: what is owed because of the time alone. */
    void second(long nowMicros, Batch batch) {
        for (Digests.Gathered gathered : digests.due(nowMicros)) {
            Message message = digestWording.message(digest(gathered), nowMicros);
            batch.owes(owedMessage(new Addressed(gathered.route(), message)));
        }
        for (Folded folded : flood.over(nowMicros)) {
            Message message = floodWording.message(folded, nowMicros);
            batch.owes(owedMessage(new Addressed(folded.route(), message)));
        }
        reminders(nowMicros, batch);
    }

    private Digest digest(Digests.Gathered gathered) {
        Set<String> news =
                gathered.lines().stream().map(DigestLine::alarmId).collect(Collectors.toSet());
        RouteScope scope =
                routes.stream()
                        .filter(route -> route.name().equals(gathered.route()))
                        .map(RouteSettings::scope)
                        .findFirst()
                        .orElseThrow();
        long before =
                standing.values().stream()
                        .filter(alarm -> scope.carries(alarm.machine()))
                        .filter(StandingAlarm::isActiveAdvisory)
                        .filter(alarm -> !news.contains(alarm.latest().alarmId()))
                        .count();
        return Digest.of(
                gathered.id(),
                gathered.route(),
                gathered.date(),
                gathered.lines(),
                id -> Optional.ofNullable(standing.get(id)).map(StandingAlarm::latest),
                before);
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
