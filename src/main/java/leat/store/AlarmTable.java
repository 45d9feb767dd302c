package leat.store;

import java.util.OptionalLong;
import leat.alarm.AlarmChange;

/** The rows of {@code alarm}: how each alarm stands. What led there are outcomes. */
final class AlarmTable {

    private static final String UPDATE =
            """
            UPDATE alarm SET config_hash = ?, grade = ?, state = ?, revision = ?, changed_us = ?
            WHERE id = ? AND revision < ?
            """;

    private static final String NEW =
            "number, id, machine, config_hash, rule, channel, grade, state, revision, raised_us,"
                    + " changed_us";

    private AlarmTable() {}

    /**
     * An update comes first: an upsert would use up a number at each change.
     *
     * @param number that it is to have if it is new; empty for the next
     */
    static void stand(
            Db db, long machine, String configHash, AlarmChange change, OptionalLong number) {
        int updated =
                db.write(UPDATE)
                        .text(configHash)
                        .word(change.finding().grade())
                        .word(change.to())
                        .number(change.revision())
                        .number(change.atMicros())
                        .text(change.alarmId())
                        .number(change.revision())
                        .now();
        if (updated == 0) {
            db.insert("alarm", NEW)
                    .number(number)
                    .text(change.alarmId())
                    .number(machine)
                    .text(configHash)
                    .word(change.finding().rule())
                    .word(change.finding().channel())
                    .word(change.finding().grade())
                    .word(change.to())
                    .number(change.revision())
                    .number(change.raisedAtMicros())
                    .number(change.atMicros())
                    .now();
        }
    }
}
