package leat.service;

import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.config.Site;
import leat.deliver.Addressed;
import leat.deliver.Dispatch;
import leat.deliver.Message;
import leat.deliver.Owed;
import leat.store.OwedMessage;
import leat.store.Told;

/**
 * What a change of an alarm owes to whom. Remembers which routes were told of an alarm that is not
 * over, so that they also hear of its end. Confined to the engine thread.
 */
final class Mail {

    private final Dispatch dispatch;
    private final Set<Told> told;

    /**
     * @param told what was told, in earlier runs, of alarms that still stand
     */
    Mail(Site site, Collection<Told> told) {
        dispatch = new Dispatch(site);
        this.told = new HashSet<>(told);
    }

    List<OwedMessage> owed(String machine, AlarmChange change) {
        List<Addressed> addressed =
                dispatch.owed(machine, change, (route, id) -> told.contains(new Told(route, id)));
        addressed.forEach(a -> told.add(new Told(a.route(), change.alarmId())));
        if (change.to() == AlarmState.NORMAL) {
            told.removeIf(t -> t.alarmId().equals(change.alarmId()));
        }
        return addressed.stream().map(Mail::owedMessage).toList();
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
