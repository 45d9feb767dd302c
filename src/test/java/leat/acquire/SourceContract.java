package leat.acquire;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertTimeout;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.mqtt.Cable;
import leat.signal.Channel;
import leat.signal.Conversion;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * What every source must do, against its real other side and over a cable that can be unplugged. It
 * reads {@code INLET} and {@code BOOSTED} of machine {@code jet-1}, two 4-20 mA loops.
 */
@Timeout(60)
public abstract class SourceContract {

    /** How both loops are wired. */
    protected static final Conversion LOOP =
            new Transducer(Optional.of(TwoPoint.IDENTITY), new TwoPoint(4, 0, 20, 200), -14.7, 220);

    private static final Duration LONGEST_CLOSE = Duration.ofSeconds(3);
    private static final Duration A_WHILE = Duration.ofMillis(500);
    private static final int BROKEN = 1;

    private final RecordingIntake intake = new RecordingIntake();
    private final LoopCurrents loops = new LoopCurrents(8, 12);
    private Cable cable;
    private Source source;

    /**
     * Starts a device that tells what the loops give, again and again, for as long as it stands.
     *
     * @return its port on 127.0.0.1
     */
    protected abstract int startDevice(LoopCurrents loops) throws Exception;

    /**
     * A source that is not started.
     *
     * @param port where the device is reached on 127.0.0.1
     */
    protected abstract Source open(int port, Intake into);

    /** Starts what the source needs besides itself. */
    protected abstract void startTheRest();

    /** The name of the thread that the source has while it runs. */
    protected abstract String threadName();

    /** Ends what {@code startDevice} and {@code open} have begun, but not the source. */
    protected abstract void closeTheRest() throws Exception;

    @BeforeEach
    final void open_the_source() throws Exception {
        cable = new Cable(startDevice(loops));
        source = open(cable.port(), intake);
    }

    @AfterEach
    final void close_everything() throws Exception {
        if (source != null) { // else the peer program is missing, and the test was skipped
            source.close();
            closeTheRest();
            cable.close();
        }
    }

    private void start() {
        source.start();
        startTheRest();
    }

    @Test
    final void nothing_is_offered_before_the_start_and_then_readings_of_every_channel() {
        assertThat(intake.all()).isEmpty();
        assertThat(source.health().readings()).isZero();

        start();

        await().until(() -> intake.values(Channel.INLET).size() >= 3);
        await().until(() -> intake.values(Channel.BOOSTED).size() >= 3);
        assertThat(intake.values(Channel.INLET)).containsOnly(50.0);
        assertThat(intake.values(Channel.BOOSTED)).containsOnly(100.0);
        assertThat(intake.all()).extracting(RecordingIntake.Offered::machine).containsOnly("jet-1");
        assertThat(source.health().connected()).isTrue();
        await().until(() -> source.health().readings() == intake.all().size());
    }

    @Test
    final void a_lost_peer_is_told_once_for_each_channel_and_so_is_its_return() throws Exception {
        start();
        awaitReadings();

        cable.unplug();
        await().until(() -> intake.losses().size() == 2);
        await().during(A_WHILE).until(() -> intake.losses().size() == 2);
        assertThat(source.health().connected()).isFalse();
        assertThat(source.health().faults()).isPositive();
        assertThat(source.health().lastFault()).contains("127.0.0.1:" + cable.port());
        cable.plugIn();

        await().until(() -> intake.returns().size() == 2);
        awaitReadings();
        for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED)) {
            assertThat(story(channel))
                    .containsExactly("Reading", "SourceLost", "SourceBack", "Reading");
        }
        assertThat(intake.losses())
                .extracting(SourceLost::channel)
                .containsExactlyInAnyOrder(Channel.INLET, Channel.BOOSTED);
        assertThat(intake.losses())
                .extracting(SourceLost::reason)
                .allSatisfy(reason -> assertThat(reason).contains("127.0.0.1:" + cable.port()));
    }

    @Test
    final void a_value_that_cannot_be_is_a_bad_reading_with_a_reason_and_no_number() {
        loops.become(BROKEN, 12);

        start();

        await().until(() -> intake.readings(Channel.INLET).size() >= 3);
        await().until(() -> !intake.values(Channel.BOOSTED).isEmpty());
        assertThat(intake.qualities(Channel.INLET)).containsOnly(Quality.LOOP_BROKEN);
        assertThat(intake.readings(Channel.INLET)).extracting(Reading::value).containsOnly(0.0);
        assertThat(intake.values(Channel.BOOSTED)).containsOnly(100.0);
        assertThat(intake.losses()).isEmpty();

        loops.become(8, 12);
        await().until(() -> intake.values(Channel.INLET).contains(50.0));
        assertThat(intake.returns()).isEmpty();
    }

    @Test
    final void what_a_full_intake_refuses_is_counted_and_loss_and_return_are_offered_until_taken()
            throws Exception {
        start();
        awaitReadings();

        intake.beFull(true);
        await().until(() -> !intake.refused(Reading.class).isEmpty());
        await().until(() -> source.health().missed() > 0);
        cable.unplug();
        await().until(() -> intake.refused(SourceLost.class).size() >= 4);
        assertThat(intake.losses()).isEmpty();
        intake.beFull(false);
        await().until(() -> intake.losses().size() == 2);

        intake.beFull(true);
        long missed = source.health().missed();
        cable.plugIn();
        await().until(() -> intake.refused(SourceBack.class).size() >= 4);
        await().until(() -> source.health().missed() >= missed + 4);
        assertThat(intake.returns()).isEmpty();
        intake.beFull(false);
        await().until(() -> intake.returns().size() == 2);
        awaitReadings();

        for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED)) {
            assertThat(story(channel))
                    .containsExactly("Reading", "SourceLost", "SourceBack", "Reading");
        }
    }

    @Test
    final void close_ends_its_thread_and_nothing_is_offered_after_it() {
        start();
        awaitReadings();
        assertThat(threads()).containsExactly(threadName());

        assertTimeout(LONGEST_CLOSE, source::close);
        int offered = intake.all().size();

        assertThat(threads()).isEmpty();
        loops.become(12, 16);
        await().during(A_WHILE).until(() -> intake.all().size() == offered);
        source.close();
    }

    @Test
    final void a_source_that_was_never_started_closes_without_harm() {
        source.close();
        source.close();

        assertThat(threads()).isEmpty();
        assertThat(intake.all()).isEmpty();
    }

    @Test
    final void close_while_the_peer_is_away_is_bounded_too() throws Exception {
        start();
        awaitReadings();
        cable.unplug();
        await().until(() -> intake.losses().size() == 2);

        assertTimeout(LONGEST_CLOSE, source::close);

        assertThat(threads()).isEmpty();
    }

    private void awaitReadings() {
        long inlet = intake.readings(Channel.INLET).size();
        long boosted = intake.readings(Channel.BOOSTED).size();
        await().until(() -> intake.readings(Channel.INLET).size() > inlet);
        await().until(() -> intake.readings(Channel.BOOSTED).size() > boosted);
    }

    /** The kinds of what was offered of a channel in order, runs of readings as one. */
    private List<String> story(Channel channel) {
        List<String> story = new ArrayList<>();
        for (RecordingIntake.Offered offered : intake.all()) {
            String kind = offered.input().getClass().getSimpleName();
            boolean again = !story.isEmpty() && story.get(story.size() - 1).equals(kind);
            if (channelOf(offered.input()) == channel && !(again && kind.equals("Reading"))) {
                story.add(kind);
            }
        }
        return story;
    }

    private static Channel channelOf(Input input) {
        if (input instanceof Reading reading) {
            return reading.channel();
        }
        if (input instanceof SourceLost lost) {
            return lost.channel();
        }
        return ((SourceBack) input).channel();
    }

    private List<String> threads() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(Thread::isAlive)
                .map(Thread::getName)
                .filter(threadName()::equals)
                .toList();
    }
}
