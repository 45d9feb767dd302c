package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.diagnose.Diagnosis;
import leat.store.StoredAlarm;

/**
 * An alarm that is not back to normal.
 *
 * @param alarm number, grade, what was found and since when
 * @param why the likeliest causes, as they were told last since it was raised; empty where nothing
 *     is known of them
 */
public record AlarmNow(StoredAlarm alarm, Optional<Diagnosis> why) {

    public AlarmNow {
        requireNonNull(alarm, "alarm");
        requireNonNull(why, "why");
    }
}
