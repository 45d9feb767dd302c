package leat.service;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.function.LongSupplier;
import leat.deliver.StoreNotice;
import leat.deliver.StoreNotice.News;
import leat.rule.Grade;
import leat.store.StoreException;
import leat.words.FaultWords;
import leat.work.Trouble;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * That the store takes nothing, from the first failed commit to the next good one: what the log and
 * what people are to hear of it, and what could not be kept meanwhile. Confined to the engine
 * thread, but for {@link #reason}.
 */
final class StoreTrouble {

    private static final Logger LOG = LoggerFactory.getLogger(StoreTrouble.class);

    /** Another trouble goes to the log, and people are told again, no sooner after the last. */
    private static final Duration SAY_AGAIN = Duration.ofMinutes(10);

    /** One commit a second: so many in a row are no hiccup. */
    private static final int TOLD_AFTER = 10;

    private final LongSupplier nanos;
    private final Trouble trouble;
    private long sinceMicros;
    private Optional<Grade> told = Optional.empty();
    private Optional<Long> failureTold = Optional.empty();
    private Optional<Long> newFileTold = Optional.empty();
    private long readingsGone;
    private long othersGone;

    /**
     * @param nanos monotonic clock
     */
    StoreTrouble(LongSupplier nanos) {
        this.nanos = nanos;
        trouble = new Trouble(SAY_AGAIN, nanos);
    }

    /** A commit has failed. Returns what people are to be told of it. */
    Optional<StoreNotice> failed(RuntimeException e, long nowMicros) {
        String reason = e instanceof StoreException ? e.getMessage() : e.toString();
        if (trouble.times() == 0) {
            sinceMicros = nowMicros;
        }
        if (trouble.isNews(reason)) {
            LOG.error(
                    "store: {}; what is measured waits in memory, alarms are told from there,"
                            + " trying again each second",
                    reason);
        }
        boolean isGrave = e instanceof StoreException.InUse || e instanceof StoreException.Gone;
        Grade grade = isGrave ? Grade.CRITICAL : Grade.WARNING;
        boolean isKnown = told.filter(before -> before.isAtLeast(grade)).isPresent();
        boolean isHiccup = !isGrave && trouble.times() < TOLD_AFTER;
        if (isKnown || isHiccup || told.isEmpty() && isTooSoon(failureTold)) {
            return Optional.empty();
        }
        told = Optional.of(grade);
        failureTold = Optional.of(nanos.getAsLong());
        News news = e instanceof StoreException.InUse ? News.IN_USE : News.FAILS;
        return Optional.of(new StoreNotice(news, grade, sinceMicros, reason, 0));
    }

    /**
     * Another file has taken the place of the one that was opened. Returns what people are to be
     * told of it.
     *
     * @param became what became of what was stored
     */
    Optional<StoreNotice> begunAnew(StoreException why, String became, long nowMicros) {
        String reason = FaultWords.english("check", why.getMessage(), became);
        LOG.error("store: {}; a new file is begun", reason);
        if (isTooSoon(newFileTold)) {
            return Optional.empty();
        }
        newFileTold = Optional.of(nanos.getAsLong());
        return Optional.of(new StoreNotice(News.ANEW, Grade.CRITICAL, nowMicros, reason, 0));
    }

    private boolean isTooSoon(Optional<Long> lastNanos) {
        return lastNanos.map(last -> nanos.getAsLong() - last < SAY_AGAIN.toNanos()).orElse(false);
    }

    /** What waited in memory was too much. */
    void letGo(int readings, int others) {
        if (readings + others > 0 && readingsGone + othersGone == 0) {
            LOG.error(
                    "store: too much waits in memory since {}; the oldest is let go from now on,"
                            + " alarms that were not told last: readings {}, others {}",
                    Instant.ofEpochSecond(sinceMicros / 1_000_000),
                    readings,
                    others);
        }
        readingsGone += readings;
        othersGone += others;
    }

    /** A commit has gone through. Returns what people are to be told of it. */
    Optional<StoreNotice> over(int waited) {
        Optional<Trouble.Past> past = trouble.over();
        if (past.isEmpty()) {
            return Optional.empty();
        }
        LOG.info(
                "store: writes again after {}; {} inputs had waited{}",
                past.get().seconds(),
                waited,
                readingsGone + othersGone == 0
                        ? ""
                        : "; let go: readings " + readingsGone + ", others " + othersGone);
        Optional<StoreNotice> news =
                told.map(
                        grade ->
                                new StoreNotice(
                                        News.WORKS,
                                        grade,
                                        sinceMicros,
                                        FaultWords.english("store.takes"),
                                        readingsGone));
        told = Optional.empty();
        readingsGone = 0;
        othersGone = 0;
        return news;
    }

    /** What is wrong now; empty when nothing is. Readable from any thread. */
    String reason() {
        return trouble.reason();
    }
}
