package leat.page;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Optional;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import leat.config.PageSettings;
import leat.config.Site;
import leat.report.Shown;
import leat.store.StoreReader;
import leat.work.Worker;

/**
 * The page that shows how the machines are, for people who look and programs that ask. It only
 * reads: from the store by readers of its own, and what the daemon tells of itself. Nothing of the
 * daemon ever waits for it.
 *
 * <p>{@link #start} returns at once; {@link #close} is idempotent and ends within two seconds.
 */
public final class StatusPage implements AutoCloseable {

    private static final Duration LET_LOOK_END = Duration.ofMillis(300);
    private static final Duration END_WITHIN = Duration.ofMillis(600);
    private static final long MICROS_PER_SECOND = 1_000_000;

    private final Turns turns = new Turns(System::nanoTime);
    private final Latest latest = new Latest();
    private final Door door;
    private final Worker looking;
    private final Worker minding;

    /**
     * @param now the reader to be asked now, on one thread alone; the page closes none of them
     * @param reports opens a reader, which the page closes
     * @param workings how the daemon goes; from any thread
     * @param nowMicros leat's time, microseconds UTC
     * @param version of the program
     */
    public StatusPage(
            PageSettings settings,
            Site site,
            Supplier<StoreReader> now,
            Supplier<StoreReader> reports,
            Supplier<Workings> workings,
            LongSupplier nowMicros,
            String version) {
        requireNonNull(settings, "settings");
        Shown shown = new Shown(site.zone(), site.shownIn(), site.language());
        Sheet sheet = new Sheet(site.name(), shown);
        Streams streams = new Streams(latest, turns);
        Access access =
                new Access(
                        Token.of(settings.token()),
                        settings.tls().isPresent(),
                        new WrongTokens(System::nanoTime),
                        () -> nowMicros.getAsLong() / MICROS_PER_SECOND);
        SignIn signIn = new SignIn(access, new SignInPage(shown, sheet), turns, shown);
        StartReports starts = new StartReports(site, shown, reports);
        OwnNames names = new OwnNames(settings);
        door =
                new Door(
                        settings,
                        turns,
                        new Desk(names, access, signIn, latest, streams, starts, turns, shown));
        Snapshots snapshots =
                new Snapshots(
                        site,
                        now,
                        workings,
                        () ->
                                new Metrics.Callers(
                                        streams.listeners(), turns.cutOff(), turns.refused()),
                        nowMicros,
                        version,
                        new Board(site, shown, sheet),
                        latest);
        looking = new Worker("leat-page-look", snapshots::step, LET_LOOK_END, END_WITHIN);
        minding = new Worker("leat-page-mind", this::mind, LET_LOOK_END, END_WITHIN);
    }

    /** Opens the door where it is shut, and cuts off who is slow. */
    private Duration mind() {
        door.look();
        return turns.look();
    }

    public void start() {
        looking.start();
        minding.start();
    }

    /** Whether there is something to show. */
    boolean hasLooked() {
        return latest.hasAny();
    }

    /** The port that it is served on; empty while it is not. */
    public Optional<Integer> port() {
        return door.port();
    }

    @Override
    public void close() {
        latest.close();
        minding.close();
        door.close();
        turns.close();
        looking.close();
    }
}
