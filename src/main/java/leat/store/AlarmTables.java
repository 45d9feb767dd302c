package leat.store;

import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;

/** The rows of {@code alarm_event}, and how the latest of them stands in {@code alarm}. */
final class AlarmTables {

    static final String EVENT =
            "alarm_id, revision, event, from_state, to_state, at_us, raised_us, by_whom, rule,"
                    + " channel, grade, since_us, found_us, quantity, measured, limit_value,"
                    + " sense, "
                    + EpisodeTables.figures("inlet_psi", "boosted_psi")
                    + ", detail, own_state, count, chattering, shelved_until_us, why";

    private static final String UPDATE =
            """
            UPDATE alarm SET config_hash = ?, grade = ?, state = ?, revision = ?, changed_us = ?
            WHERE id = ? AND revision < ?
            """;

    private static final String NEW =
            "id, machine, config_hash, rule, channel, grade, state, revision, raised_us,"
                    + " changed_us";

    private AlarmTables() {}

    /** An update comes first: an upsert would use up a number at each change. */
    static void stand(Db db, long machine, String configHash, AlarmChange change) {
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

    static Write put(Write write, AlarmChange change) {
        Finding finding = change.finding();
        return write.text(change.alarmId())
                .number(change.revision())
                .word(change.event())
                .word(change.from())
                .word(change.to())
                .number(change.atMicros())
                .number(change.raisedAtMicros())
                .text(change.by())
                .word(finding.rule())
                .word(finding.channel())
                .word(finding.grade())
                .number(finding.sinceMicros())
                .number(finding.atMicros())
                .word(finding.quantity())
                .real(finding.measured())
                .real(finding.limit())
                .word(finding.sense())
                .figure(finding.inletPsi())
                .figure(finding.boostedPsi())
                .text(Remark.write(finding.remarks()))
                .word(change.notes().own())
                .number(change.notes().count())
                .flag(change.notes().chattering())
                .number(change.notes().shelvedUntilMicros())
                .text(change.notes().why());
    }

    static AlarmChange change(Row row) {
        String alarmId = row.text();
        int revision = (int) row.number();
        AlarmEvent event = row.word(AlarmEvent.class);
        AlarmState from = row.word(AlarmState.class);
        AlarmState to = row.word(AlarmState.class);
        long atMicros = row.number();
        long raisedAtMicros = row.number();
        String by = row.text();
        Finding finding = finding(row);
        return new AlarmChange(
                alarmId,
                revision,
                event,
                from,
                to,
                atMicros,
                raisedAtMicros,
                finding,
                by,
                new AlarmNotes(
                        row.word(AlarmState.class),
                        (int) row.number(),
                        row.flag(),
                        row.maybeNumber(),
                        row.text()));
    }

    private static Finding finding(Row row) {
        return new Finding(
                row.word(Rule.class),
                row.word(Channel.class),
                row.word(Grade.class),
                row.number(),
                row.number(),
                row.word(Finding.Quantity.class),
                row.real(),
                row.real(),
                row.word(Finding.Sense.class),
                row.figure(),
                row.figure(),
                Remark.read(row.text()));
    }
}
