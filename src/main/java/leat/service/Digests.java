package leat.service;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.config.Site;
import leat.deliver.DigestLine;
import leat.deliver.SiteCalendar;
import leat.rule.Grade;
import leat.store.FoldedMessage;
import leat.store.OwedMessage;
import leat.store.StandIn;
import leat.store.Told;

/**
 * Gathers what the routes that want it once a day are owed of ADVISORY alarms. An alarm of which a
 * route was ever told at once, because it was graver, is told one by one there until it is over.
 * Confined to the engine thread.
 */
final class Digests {

    private static final Pattern ID = Pattern.compile("digest/(\\d{4}-\\d{2}-\\d{2})/.+");

    /**
     * What one message is to stand for.
     *
     * @param id the message's id
     * @param route name of the route
     * @param date on which it falls due, on the site's calendar
     * @param lines in their order
     */
    record Gathered(String id, String route, LocalDate date, List<DigestLine> lines) {
        Gathered {
            lines = List.copyOf(lines);
        }
    }

    private final SiteCalendar calendar;
    private final StandInIds ids;
    private final Map<String, LocalTime> times = new HashMap<>();
    private final Set<Told> apart = new HashSet<>();
    private final Map<StandIn, List<DigestLine>> gathered = new LinkedHashMap<>();

    /**
     * @param apart who was told at once of an alarm that is not over
     * @param pending what was gathered in earlier runs and no message stands for yet
     * @param ids which ids are used up
     */
    Digests(Site site, Collection<Told> apart, Collection<FoldedMessage> pending, StandInIds ids) {
        calendar = new SiteCalendar(site.zone());
        this.ids = ids;
        site.routes()
                .forEach(
                        route ->
                                route.scope()
                                        .policy()
                                        .advisories()
                                        .ifPresent(time -> times.put(route.name(), time)));
        this.apart.addAll(apart);
        pending.forEach(each -> gather(each.into(), each.message()));
    }

    /** Whether an id is that of a digest. */
    static boolean isDigest(String messageId) {
        return ID.matcher(messageId).matches();
    }

    /**
     * Takes a message of an alarm in, unless it is to be told at once.
     *
     * @return the id of the message that is to stand for it; empty when it is told by itself
     */
    Optional<String> foldsInto(OwedMessage message) {
        Optional<LocalTime> time = Optional.ofNullable(times.get(message.route()));
        if (time.isEmpty()) {
            return Optional.empty();
        }
        Told told = new Told(message.route(), message.alarmId());
        if (message.grade().isAtLeast(Grade.WARNING)) {
            apart.add(told);
        }
        if (apart.contains(told)) {
            return Optional.empty();
        }
        LocalDate date = calendar.nextDate(message.atMicros(), time.get());
        String id = ids.free(message.route(), "digest/" + date + "/" + message.route());
        gather(id, message);
        return Optional.of(id);
    }

    private void gather(String id, OwedMessage message) {
        gathered.computeIfAbsent(new StandIn(message.route(), id), i -> new ArrayList<>())
                .add(DigestLine.of(StoreOutbox.message(message)));
    }

    /** The alarm is over: when it comes again, it is told as if for the first time. */
    void over(String alarmId) {
        apart.removeIf(told -> told.alarmId().equals(alarmId));
    }

    /** What has fallen due; each is handed out once. */
    List<Gathered> due(long nowMicros) {
        List<StandIn> ready =
                gathered.keySet().stream().filter(each -> isDue(each, nowMicros)).toList();
        List<Gathered> due = new ArrayList<>();
        for (StandIn each : ready) {
            LocalDate date = date(each.messageId());
            due.add(new Gathered(each.messageId(), each.route(), date, gathered.remove(each)));
            ids.use(each.route(), each.messageId());
        }
        return due;
    }

    /**
     * What lies beyond the next time is due, too: the clock was set back or the setting changed. So
     * is what was gathered for a route that is told one by one by now.
     */
    private boolean isDue(StandIn each, long nowMicros) {
        Optional<LocalTime> time = Optional.ofNullable(times.get(each.route()));
        LocalDate date = date(each.messageId());
        return time.isEmpty()
                || nowMicros >= calendar.dueMicros(date, time.get())
                || date.isAfter(calendar.nextDate(nowMicros, time.get()));
    }

    private static LocalDate date(String messageId) {
        Matcher id = ID.matcher(messageId);
        if (!id.matches()) {
            throw new IllegalArgumentException("no digest: " + messageId);
        }
        return LocalDate.parse(id.group(1));
    }
}
