package leat.service;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import leat.deliver.DeliveryResult;
import leat.deliver.Route;
import leat.rule.Grade;
import leat.store.Message;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Real store, real courier, and a night that the test begins and ends. */
@Timeout(30)
class QuietHoursTest {

    @TempDir Path folder;

    private final AtomicBoolean night = new AtomicBoolean(true);
    private final Hall hall = new Hall();

    @Test
    void critical_passes_in_quiet_hours_and_the_rest_comes_in_order_at_their_end() {
        try (PostRoom post = new PostRoom(folder)) {
            post.serve(hall, Duration.ofHours(72), night::get);
            String first = post.owe("ratio", Grade.WARNING, "hall");
            String second = post.owe("rise", Grade.ADVISORY, "hall");
            String grave = post.owe("inlet", Grade.CRITICAL, "hall");
            post.commit();
            await().until(() -> hall.carried().size() == 1);
            List<String> atNight = hall.carried();
            await().until(() -> post.waitingAfterMarks("hall") == 2);

            night.set(false);
            post.commit();
            await().until(() -> hall.carried().size() == 3);

            assertThat(atNight).containsExactly(grave);
            assertThat(hall.carried()).containsExactly(grave, first, second);
        }
    }

    @Test
    void alarm_that_becomes_critical_at_night_is_told_from_its_begin() {
        try (PostRoom post = new PostRoom(folder)) {
            post.serve(hall, Duration.ofHours(72), night::get);
            String came = post.owe("inlet", Grade.WARNING, "hall");
            String other = post.owe("rise", Grade.WARNING, "hall");
            String worsened = post.owe("inlet", Grade.CRITICAL, "hall");
            String eased = post.owe("inlet", Grade.WARNING, "hall");
            post.commit();
            await().until(() -> hall.carried().size() == 2);

            night.set(false);
            post.commit();
            await().until(() -> hall.carried().size() == 4);

            assertThat(hall.carried()).containsExactly(came, worsened, other, eased);
        }
    }

    @Test
    void what_waits_for_the_morning_survives_a_restart() {
        String kept;
        try (PostRoom post = new PostRoom(folder)) {
            post.serve(hall, Duration.ofHours(72), night::get);
            kept = post.owe("ratio", Grade.WARNING, "hall");
            post.owe("inlet", Grade.CRITICAL, "hall");
            post.commit();
            await().until(() -> post.waitingAfterMarks("hall") == 1);
        }
        Hall again = new Hall();

        night.set(false);
        try (PostRoom post = new PostRoom(folder)) {
            post.serve(again, Duration.ofHours(72), night::get);
            await().until(() -> !again.carried().isEmpty());
        }

        assertThat(again.carried()).containsExactly(kept);
    }

    /** Takes everything. */
    private static final class Hall implements Route {
        private final List<String> carried = Collections.synchronizedList(new ArrayList<>());

        @Override
        public String name() {
            return "hall";
        }

        @Override
        public void start(Runnable whenReachable) {
            // always reachable
        }

        @Override
        public DeliveryResult deliver(Message message) {
            carried.add(message.id());
            return DeliveryResult.DELIVERED;
        }

        @Override
        public void close() {
            // nothing is open
        }

        List<String> carried() {
            synchronized (carried) {
                return List.copyOf(carried);
            }
        }
    }
}
