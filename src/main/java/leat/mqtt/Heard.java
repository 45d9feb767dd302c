package leat.mqtt;

import static java.util.Objects.requireNonNull;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/**
 * What came while somebody listened at a broker. Every word of it is from outside.
 *
 * @param topics in the order in which they were first heard; not more than are kept
 * @param passedOver messages of further topics, which were only counted
 * @param fault why it ended early, in words with what to check next
 */
public record Heard(List<Topic> topics, long passedOver, Optional<String> fault) {

    public Heard {
        topics = List.copyOf(topics);
        requireNonNull(fault, "fault");
    }

    /**
     * One topic.
     *
     * @param name as the broker told it
     * @param count of its messages
     * @param retained how many of them the broker had kept: these may be of any age
     * @param messages the first ones
     */
    public record Topic(String name, long count, long retained, List<Message> messages) {
        public Topic {
            requireNonNull(name, "name");
            messages = List.copyOf(messages);
        }

        /** Nothing new came while it was listened to. */
        public boolean isRetainedAlone() {
            return count == retained;
        }
    }

    /**
     * One message.
     *
     * @param atMillis when it came, by this computer's clock, milliseconds UTC
     * @param retained whether the broker had kept it
     * @param length of the payload in bytes
     * @param bytes the payload or its beginning, one character for each byte
     */
    public record Message(long atMillis, boolean retained, int length, String bytes) {
        public Message {
            requireNonNull(bytes, "bytes");
        }

        public boolean isWhole() {
            return bytes.length() == length;
        }

        /** As it came, as far as it is kept. */
        public byte[] payload() {
            return bytes.getBytes(StandardCharsets.ISO_8859_1);
        }

        /** As text, whatever it is. */
        public String text() {
            return new String(payload(), StandardCharsets.UTF_8);
        }
    }
}
