package leat.bench.panel;

import java.util.Comparator;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.PriorityQueue;
import java.util.Random;

/**
 * Messages on their way: by chance some are lost and some are late, but those of one topic never
 * overtake one another. The same seed and calls lose and delay the same ones. Thread-confined.
 */
final class Post {

    /**
     * One message.
     *
     * @param dueMicros when it leaves
     * @param number in the order in which they were posted
     */
    record Message(long dueMicros, long number, String topic, String text) {}

    private final Random random;
    private final double lostShare;
    private final long jitterMicros;
    private final PriorityQueue<Message> waiting =
            new PriorityQueue<>(
                    Comparator.comparingLong(Message::dueMicros)
                            .thenComparingLong(Message::number));
    private final Map<String, Long> lastDue = new HashMap<>();
    private long number;

    /**
     * An empty one.
     *
     * @param lostPercent 0 to 100
     * @param jitterMicros 0 or more
     */
    Post(long seed, double lostPercent, long jitterMicros) {
        random = new Random(seed);
        lostShare = lostPercent / 100;
        this.jitterMicros = jitterMicros;
    }

    /** Posts a message now. */
    void post(long nowMicros, String topic, String text) {
        boolean lost = random.nextDouble() < lostShare;
        long late = Math.round(random.nextDouble() * jitterMicros);
        if (!lost) {
            long due = Math.max(nowMicros + late, lastDue.getOrDefault(topic, Long.MIN_VALUE));
            lastDue.put(topic, due);
            waiting.add(new Message(due, number, topic, text));
            number++;
        }
    }

    /** Takes the next message that is due. */
    Optional<Message> take(long nowMicros) {
        Message first = waiting.peek();
        return first == null || first.dueMicros() > nowMicros
                ? Optional.empty()
                : Optional.of(waiting.remove());
    }

    /** Throws the next message away. */
    void drop() {
        waiting.poll();
    }

    /** When the next message is due; never where none waits. */
    long nextMicros() {
        return waiting.isEmpty() ? Long.MAX_VALUE : waiting.peek().dueMicros();
    }

    int size() {
        return waiting.size();
    }
}
