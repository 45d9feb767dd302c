package leat.config;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * How people may give leat instructions by MQTT.
 *
 * @param connection name of the MQTT connection; it logs in with a user name and a password
 * @param topic where signed instructions come
 * @param replyTopic where leat answers; another one
 * @param window how far the time of a signature may be from leat's own, either way
 * @param people who may give instructions; at least one
 */
public record InstructionSettings(
        String connection, String topic, String replyTopic, Duration window, List<Person> people) {

    public InstructionSettings {
        requireNonNull(connection, "connection");
        requireNonNull(topic, "topic");
        requireNonNull(replyTopic, "replyTopic");
        requireNonNull(window, "window");
        people = List.copyOf(people);
    }

    /**
     * Somebody who may give instructions.
     *
     * @param name as it will stand in the history of alarms and in the journal
     * @param token what this person's program signs with; empty only where no secret was fetched
     */
    public record Person(String name, Optional<Secret> token) {
        public Person {
            requireNonNull(name, "name");
            requireNonNull(token, "token");
        }
    }
}
