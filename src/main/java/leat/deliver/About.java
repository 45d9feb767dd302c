package leat.deliver;

import java.util.Optional;
import leat.rule.Grade;
import leat.store.Message;

/** What a message is about, as facts; {@link Wording} has the words. */
public sealed interface About
        permits Changed, LaterCall, OutageOver, More, Digest, Undelivered, Day, StoreNotice, Trial {

    /** Name of the machine; {@link Message#EVERY_MACHINE} for more than one. */
    String machine();

    /** The occurrence of the alarm; empty for what is not about one alarm. */
    default String alarmId() {
        return "";
    }

    /** The change of the alarm that it tells of; empty for what is not about one alarm. */
    default Optional<Changed> alarm() {
        return Optional.empty();
    }

    /** What it wants of its reader. */
    Message.Purpose kind();

    /** What happened, in the word of the JSON. */
    String event();

    /** The grade that stands, or the gravest that it is about. */
    Grade grade();

    /** The message in words. */
    Message in(Wording wording, Notification notification);
}
