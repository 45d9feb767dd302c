package leat.deliver;

import static java.util.Objects.requireNonNull;

import leat.rule.Grade;

/**
 * One change of one alarm, or a notice of leat about itself, ready to be sent and self-contained:
 * whatever a route needs is in it, so that it can be stored and delivered hours later. Immutable.
 *
 * @param id {@code alarmId/revision}: the same for every repeat, so that a receiver can drop one
 * @param alarmId the occurrence of the alarm; empty for a notice
 * @param machine name of the machine; {@code all} in a message about more than one
 * @param topic where the state of this alarm belongs, such as {@code jet-1/alarm/ratio}; without
 *     leading or trailing slash
 * @param kind what it wants of its reader
 * @param event what happened, in the word of the JSON, such as {@code raised}
 * @param grade the grade that stands, or for a return the last that stood
 * @param atMicros event time of the change, microseconds UTC
 * @param subject one line
 * @param text plain words for a person, lines of about 100 characters, no control characters but
 *     line feeds
 * @param json JSON object by the schema {@code leat.alarm/1}, see {@code
 *     config/alarm-message.schema.json}; for a notice {@code leat.notice/1}, see {@code
 *     config/notice-message.schema.json}
 */
public record Message(
        String id,
        String alarmId,
        String machine,
        String topic,
        Kind kind,
        String event,
        Grade grade,
        long atMicros,
        String subject,
        String text,
        String json) {

    /** In the place of a machine's name, in a message about more than one. */
    static final String EVERY_MACHINE = "all";

    /** What a message wants of its reader. */
    public enum Kind {
        /** Somebody has to do something. */
        CALL,
        /** An alarm has changed; nobody has to go anywhere. */
        NEWS,
        /** About leat itself: not about an alarm, but about how it is told. */
        NOTICE
    }

    public Message {
        requireNonNull(id, "id");
        requireNonNull(alarmId, "alarmId");
        requireNonNull(machine, "machine");
        requireNonNull(topic, "topic");
        requireNonNull(kind, "kind");
        requireNonNull(event, "event");
        requireNonNull(grade, "grade");
        requireNonNull(subject, "subject");
        requireNonNull(text, "text");
        requireNonNull(json, "json");
    }
}
