package leat.store;

import java.nio.file.Path;
import leat.watch.Outcome;

/** A store with one machine, jet-1, and one alarm, number 1, for tests of what is said about it. */
public final class OneAlarm {

    public static final String ID = "jet-1.ratio.20260105T060031Z";

    private OneAlarm() {}

    public static void store(Path file) {
        Batch batch = new Batch();
        batch.said("jet-1", 1, new Outcome.AlarmChanged(InstructionBoxTest.raised(ID)), "hash");
        try (Store store = Store.open(file)) {
            store.startRun("test", "hash", "", 0);
            store.commit(batch);
        }
    }
}
