package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.function.Consumer;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.rule.Grade;
import leat.store.Message;

/**
 * An alarm of a machine has changed. Immutable.
 *
 * @param machine name of the machine
 * @param change what happened
 * @param why what the machine's starts say of the cause; empty where nothing is known of it, and
 *     where it is not of what was found: pressures explain no broken wire
 */
public record Changed(String machine, AlarmChange change, Optional<Diagnosis> why)
        implements Occasion, About {

    public Changed {
        requireNonNull(machine, "machine");
        requireNonNull(change, "change");
        why =
                why.filter(
                        known ->
                                !change.finding().rule().isAboutSignal()
                                        || known.first().cause().isOfSignal());
    }

    /** One whose cause nobody has looked for. */
    public Changed(String machine, AlarmChange change) {
        this(machine, change, Optional.empty());
    }

    /** Names the change, and the message about it, for ever. */
    String id() {
        return change.alarmId() + "/" + change.revision();
    }

    @Override
    public void befall(Annunciator annunciator, Consumer<Notification> into) {
        annunciator.changed(this, into);
    }

    @Override
    public String alarmId() {
        return change.alarmId();
    }

    @Override
    public Message.Purpose kind() {
        return change.isCall() ? Message.Purpose.CALL : Message.Purpose.NEWS;
    }

    @Override
    public String event() {
        return change.event().key();
    }

    @Override
    public Grade grade() {
        return change.finding().grade();
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        return wording.changed(notification, this);
    }
}
