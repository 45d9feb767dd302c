package leat.deliver;

import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.rule.Grade;
import leat.store.Message;

/** A call about an alarm that stands, for another reason than that it has changed. */
sealed interface LaterCall extends About permits Again, Alone {

    /** The alarm's latest change. */
    AlarmChange latest();

    /** What is known of its cause. */
    Optional<Diagnosis> why();

    /** Of the message. */
    String id();

    @Override
    default String alarmId() {
        return latest().alarmId();
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
