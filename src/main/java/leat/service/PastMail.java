package leat.service;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import leat.deliver.Reminders;
import leat.store.FoldedMessage;
import leat.store.OwedMessage;
import leat.store.StandIn;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import leat.store.Told;
import leat.store.ToldMessage;

/**
 * What the store knows of the messages of earlier runs, as far as it decides what is owed next.
 * Immutable.
 *
 * @param standing every change of the alarms that are not back to normal, each alarm's in its order
 * @param told whom was owed something of these alarms, since each was last back to normal
 * @param toldAtOnce of these, who was not told by a digest alone
 * @param reminded the last reminder of each
 * @param latest the messages of the last ten minutes that were told themselves
 * @param pending folded messages that no message stands for yet
 * @param standIns ids of the messages that stand for folded ones
 */
record PastMail(
        List<StoredAlarm> standing,
        Set<Told> told,
        Set<Told> toldAtOnce,
        Map<Told, String> reminded,
        List<OwedMessage> latest,
        List<FoldedMessage> pending,
        List<StandIn> standIns) {

    static final PastMail NONE =
            new PastMail(List.of(), Set.of(), Set.of(), Map.of(), List.of(), List.of(), List.of());

    PastMail {
        standing = List.copyOf(standing);
        told = Set.copyOf(told);
        toldAtOnce = Set.copyOf(toldAtOnce);
        reminded = Map.copyOf(reminded);
        latest = List.copyOf(latest);
        pending = List.copyOf(pending);
        standIns = List.copyOf(standIns);
    }

    static PastMail of(StoreReader reader) {
        List<StoredAlarm> changes = new ArrayList<>();
        for (StoredAlarm standing : reader.standingAlarms()) {
            changes.addAll(reader.alarmHistory(standing.change().alarmId()));
        }
        Set<Told> told = new HashSet<>();
        Set<Told> atOnce = new HashSet<>();
        Map<Told, String> reminded = new LinkedHashMap<>();
        for (ToldMessage message : reader.toldOfStanding()) {
            Told to = message.told();
            told.add(to);
            if (message.into().filter(Digests::isDigest).isEmpty()) {
                atOnce.add(to);
            }
            if (Reminders.isReminder(message.event())) {
                reminded.put(to, message.messageId());
            }
        }
        return new PastMail(
                changes,
                told,
                atOnce,
                reminded,
                reader.latestMessages(),
                reader.pendingFolds(),
                reader.standIns());
    }

    /** What is folded because it was too much, for the routes that there still are. */
    List<FoldedMessage> floods(Set<String> routes) {
        return pending.stream()
                .filter(each -> routes.contains(each.message().route()))
                .filter(each -> !Digests.isDigest(each.into()))
                .toList();
    }

    /** What is gathered for a digest, for the routes that there still are. */
    List<FoldedMessage> digests(Set<String> routes) {
        return pending.stream()
                .filter(each -> routes.contains(each.message().route()))
                .filter(each -> Digests.isDigest(each.into()))
                .toList();
    }
}
