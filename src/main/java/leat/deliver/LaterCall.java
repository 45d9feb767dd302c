package leat.deliver;

import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.rule.Grade;
import leat.store.Message;

/** A call about an alarm that stands, for another reason than that it has changed. */
sealed interface LaterCall extends About permits Again, Alone, OutageCall {

    /** The alarm's latest change. */
    AlarmChange latest();

    /** What is known of its cause. */
    Optional<Diagnosis> why();

    /** Whether it was called before, and nobody has answered. */
    boolean isAgain();

    /** By which people call the alarm; empty where it is not stored. */
    OptionalLong number();

    /** Of the message. */
    String id();

    @Override
    default String alarmId() {
        return latest().alarmId();
    }

    @Override
    default Optional<Changed> alarm() {
        return Optional.of(new Changed(machine(), latest(), why(), number()));
    }

    @Override
    default Message.Purpose kind() {
        return Message.Purpose.CALL;
    }

    @Override
    default Grade grade() {
        return latest().finding().grade();
    }

    @Override
    default Message in(Wording wording, Notification notification) {
        return wording.later(notification, this);
    }
}
