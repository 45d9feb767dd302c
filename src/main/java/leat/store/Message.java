package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.rule.Grade;

/**
 * A message to one route, ready to be sent and self-contained: whatever a route needs is in it, so
 * that it can be stored and delivered hours later. It is committed together with what it tells of.
 * Immutable.
 *
 * @param id the same for every repeat, so that a receiver can drop one, such as {@code
 *     alarmId/revision}; unique within its route
 * @param route name of the route
 * @param machine name of the machine; {@link #EVERY_MACHINE} in a message about more than one
 * @param alarmId the occurrence of the alarm; empty for what is not about one
 * @param grade the grade that stands, or for a return the last that stood
 * @param atMicros event time, microseconds UTC
 * @param topic where the state of this alarm belongs, such as {@code jet-1/alarm/ratio}; without
 *     leading or trailing slash
 * @param kind what it wants of its reader
 * @param event what happened, in the word of the JSON, such as {@code raised}
 * @param subject one line
 * @param text plain words for a person, lines of about 100 characters, no control characters but
 *     line feeds
 * @param json JSON object by the schema {@code leat.alarm/1}, see {@code
 *     config/alarm-message.schema.json}; for what is not about one alarm {@code leat.notice/1}, see
 *     {@code config/notice-message.schema.json}
 * @param foldedInto id of the message of the same route that stands for it; empty when it is told
 *     itself
 */
public record Message(
        String id,
        String route,
        String machine,
        String alarmId,
        Grade grade,
        long atMicros,
        String topic,
        Purpose kind,
        String event,
        String subject,
        String text,
        String json,
        Optional<String> foldedInto) {

    /** In the place of a machine's name, in a message about more than one. */
    public static final String EVERY_MACHINE = "all";

    /** What a message wants of its reader. */
    public enum Purpose {
        /** Somebody has to do something. */
        CALL,
        /** An alarm has changed; nobody has to go anywhere. */
        NEWS,
        /** About leat itself: not about an alarm, but about how it is told. */
        NOTICE
    }

    /** The same in other words. */
    public Message saying(String otherText, String otherJson) {
        return new Message(
                id,
                route,
                machine,
                alarmId,
                grade,
                atMicros,
                topic,
                kind,
                event,
                subject,
                otherText,
                otherJson,
                foldedInto);
    }

    public Message {
        requireNonNull(id, "id");
        requireNonNull(route, "route");
        requireNonNull(machine, "machine");
        requireNonNull(alarmId, "alarmId");
        requireNonNull(grade, "grade");
        requireNonNull(topic, "topic");
        requireNonNull(kind, "kind");
        requireNonNull(event, "event");
        requireNonNull(subject, "subject");
        requireNonNull(text, "text");
        requireNonNull(json, "json");
        requireNonNull(foldedInto, "foldedInto");
    }
}
