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
        String text,
        String json) {

    public OwedMessage {
        requireNonNull(messageId, "messageId");
        requireNonNull(route, "route");
        requireNonNull(machine, "machine");
        requireNonNull(alarmId, "alarmId");
        requireNonNull(grade, "grade");
        requireNonNull(topic, "topic");
        requireNonNull(text, "text");
        requireNonNull(json, "json");
    }
}
