package leat.store;

import static java.util.Objects.requireNonNull;

import leat.rule.Grade;

/**
 * A message that somebody must get. It is committed together with what it tells of.
 *
 * @param messageId stable id, by which a receiver can drop a repeat; unique within its route
 * @param route name of the route
 * @param machine name of the machine
 * @param alarmId id of the alarm it tells of
 * @param grade how grave
 * @param atMicros event time, microseconds UTC
 * @param topic where on the route; may be empty
 * @param kind what it wants of its reader
 * @param event what happened, as the JSON says it
 * @param subject one line
 * @param text for people
 * @param json for programs
 */
public record OwedMessage(
        String messageId,
        String route,
        String machine,
        String alarmId,
        Grade grade,
        long atMicros,
        String topic,
        Kind kind,
        String event,
        String subject,
        String text,
        String json) {

    /** What a message wants of its reader. */
    public enum Kind {
        /** Somebody has to do something. */
        CALL,
        /** An alarm has changed; nobody has to go anywhere. */
        NEWS,
        /** About leat itself. */
        NOTICE
    }

    public OwedMessage {
        requireNonNull(messageId, "messageId");
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
    }
}
