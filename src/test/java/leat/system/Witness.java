package leat.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import leat.store.StoreReader;

/** Remembers what anybody could see in the store at some moment, to ask for it again later. */
final class Witness {

    /** Inputs of a machine after one number up to another, and what they were. */
    private record Seen(String machine, long after, long to, long digest) {}

    private final List<Seen> seen = new ArrayList<>();
    private final Map<String, Long> last = new HashMap<>();

    /** Looks at everything that is new since the last look. */
    void look(StoreReader reader) {
        for (String machine : reader.machines()) {
            long after = last.getOrDefault(machine, 0L);
            long to = reader.lastSeq(machine);
            seen.add(new Seen(machine, after, to, digest(reader, machine, after, to)));
            last.put(machine, to);
        }
    }

    /** Inputs seen, of all machines. */
    long count() {
        return last.values().stream().mapToLong(Long::longValue).sum();
    }

    /** Every input that was ever seen is there and is what it was. */
    void assertAllIsThere(StoreReader reader) {
        for (Seen then : seen) {
            assertThat(reader.lastSeq(then.machine()))
                    .as(then.machine())
                    .isGreaterThanOrEqualTo(then.to());
            assertThat(digest(reader, then.machine(), then.after(), then.to()))
                    .as(then.machine() + ": inputs after " + then.after() + " to " + then.to())
                    .isEqualTo(then.digest());
        }
    }

    private static long digest(StoreReader reader, String machine, long after, long to) {
        long[] digest = {1};
        reader.inputs(
                machine,
                after,
                to,
                (seq, input) ->
                        digest[0] = (digest[0] * 31 + seq) * 31 + input.toString().hashCode());
        return digest[0];
    }
}
