package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * What a digest keeps of a message that is not sent itself. Immutable.
 *
 * @param id the message's id
 * @param alarmId the occurrence of the alarm
 * @param machine name of the machine
 * @param atMicros event time, microseconds UTC
 * @param subject one line
 * @param call the whole text for people, of a message that calls somebody
 */
public record DigestLine(
        String id,
        String alarmId,
        String machine,
        long atMicros,
        String subject,
        Optional<String> call) {

    public DigestLine {
        requireNonNull(id, "id");
        requireNonNull(alarmId, "alarmId");
        requireNonNull(machine, "machine");
        requireNonNull(subject, "subject");
        requireNonNull(call, "call");
    }

    public static DigestLine of(Message message) {
        return new DigestLine(
                message.id(),
                message.alarmId(),
                message.machine(),
                message.atMicros(),
                message.subject(),
                message.kind() == Message.Kind.CALL
                        ? Optional.of(message.text())
                        : Optional.empty());
    }
}
