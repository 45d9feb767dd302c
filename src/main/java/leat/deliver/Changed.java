package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.OptionalLong;
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
 * @param number by which people call the alarm; empty where it is not stored, as in a backtest
 */
public record Changed(
        String machine, AlarmChange change, Optional<Diagnosis> why, OptionalLong number)
        implements Occasion, About {

    public Changed {
        requireNonNull(machine, "machine");
        requireNonNull(change, "change");
        why =
                why.filter(
                        known ->
                                !change.finding().rule().isAboutSignal()
                                        || known.first().cause().isOfSignal());
        requireNonNull(number, "number");
    }

    /** One that has no number. */
    public Changed(String machine, AlarmChange change, Optional<Diagnosis> why) {
        this(machine, change, why, OptionalLong.empty());
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
    public Optional<Changed> alarm() {
        return Optional.of(this);
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
