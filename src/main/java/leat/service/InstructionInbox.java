package leat.service;

import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import leat.store.MachineInService;
import leat.store.StoreException;
import leat.store.StoredAlarm;
import leat.store.WaitingInstruction;
import leat.work.Trouble;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Where instructions that people left in the store are picked up, each once. Confined to the engine
 * thread.
 */
final class InstructionInbox implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(InstructionInbox.class);
    private static final Duration SAY_AGAIN = Duration.ofMinutes(10);

    private final StoreView view;

    /** Taken up, but the commit that says so has not gone through yet. */
    private final Set<Long> inHand = new HashSet<>();

    private final Trouble trouble = new Trouble(SAY_AGAIN, System::nanoTime);

    InstructionInbox(StoreView view) {
        this.view = view;
    }

    List<WaitingInstruction> waiting() {
        try {
            List<WaitingInstruction> waiting =
                    view.reader().waiting().stream().filter(w -> inHand.add(w.number())).toList();
            trouble.over()
                    .ifPresent(
                            past ->
                                    LOG.info(
                                            "instructions can be read again, after {}",
                                            past.seconds()));
            return waiting;
        } catch (StoreException e) {
            if (trouble.isNews(e.getMessage())) {
                LOG.error("instructions cannot be read: {}", e.getMessage());
            }
            return List.of();
        }
    }

    /** The alarms that the last run left standing. */
    List<StoredAlarm> standingAlarms() {
        return view.reader().standingAlarms();
    }

    /** The machines that the last run left in service. */
    List<MachineInService> inService() {
        return view.reader().inService();
    }

    long startupsBetween(String machine, long fromMicros, long toMicros) {
        return view.reader().startupsBetween(machine, fromMicros, toMicros);
    }

    /** What was taken up has been committed, or waits in a file that nobody can read any more. */
    void settled() {
        inHand.clear();
    }

    @Override
    public void close() {
        view.close();
    }
}
