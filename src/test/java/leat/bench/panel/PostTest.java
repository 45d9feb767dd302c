package leat.bench.panel;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class PostTest {

    private static final long SECOND = 1_000_000;

    private static void fill(Post post, int messages) {
        for (int i = 0; i < messages; i++) {
            post.post(i * SECOND / 10, "yard/inlet", Integer.toString(i));
            post.post(i * SECOND / 10, "yard/boosted", Integer.toString(i));
        }
    }

    private static List<Post.Message> all(Post post) {
        List<Post.Message> taken = new ArrayList<>();
        Optional<Post.Message> message = post.take(Long.MAX_VALUE);
        while (message.isPresent()) {
            taken.add(message.get());
            message = post.take(Long.MAX_VALUE);
        }
        return taken;
    }

    @Test
    void nothing_is_late_or_lost_where_nothing_is_said() {
        Post post = new Post(1, 0, 0);

        fill(post, 100);

        List<Post.Message> taken = all(post);
        assertThat(taken).hasSize(200);
        assertThat(taken).allMatch(m -> m.dueMicros() == Long.parseLong(m.text()) * SECOND / 10);
    }

    @Test
    void so_many_are_lost_and_the_same_ones_each_time() {
        Post post = new Post(1, 20, 0);
        Post again = new Post(1, 20, 0);
        Post other = new Post(2, 20, 0);
        fill(post, 5_000);
        fill(again, 5_000);
        fill(other, 5_000);

        List<Post.Message> taken = all(post);

        assertThat(taken.size()).isBetween(7_850, 8_150);
        assertThat(all(again)).isEqualTo(taken);
        assertThat(all(other)).isNotEqualTo(taken);
    }

    @Test
    void late_ones_are_late_by_at_most_the_jitter_and_keep_the_order_of_their_topic() {
        Post post = new Post(1, 0, 2 * SECOND);

        fill(post, 1_000);

        List<Post.Message> taken = all(post);
        assertThat(taken)
                .allMatch(m -> m.dueMicros() >= Long.parseLong(m.text()) * SECOND / 10)
                .allMatch(m -> m.dueMicros() <= Long.parseLong(m.text()) * SECOND / 10 + 2 * SECOND)
                .anyMatch(m -> m.dueMicros() > Long.parseLong(m.text()) * SECOND / 10 + SECOND);
        assertThat(taken.stream().filter(m -> m.topic().endsWith("inlet")))
                .extracting(m -> Integer.parseInt(m.text()))
                .isSorted();
    }

    @Test
    void a_message_leaves_when_it_is_due_and_not_before() {
        Post post = new Post(1, 0, SECOND);
        post.post(0, "yard/inlet", "42");
        long due = post.nextMicros();

        Optional<Post.Message> early = post.take(due - 1);

        assertThat(early).isEmpty();
        assertThat(post.take(due)).isPresent();
        assertThat(post.nextMicros()).isEqualTo(Long.MAX_VALUE);
    }
}
