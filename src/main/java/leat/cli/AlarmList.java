package leat.cli;

import static java.util.Objects.requireNonNull;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.live.OutageNow;
import leat.report.Shown;
import leat.report.TextTable;
import leat.rule.Finding;
import leat.store.StoredAlarm;
import leat.words.AlarmWords;
import leat.words.BriefTimes;

/**
 * Alarms as a person reads them: what stands, the gravest first, apart from what has gone or is
 * held back.
 *
 * @param shown the site's zone and unit
 * @param brief its times in a narrow table
 */
record AlarmList(Shown shown, BriefTimes brief) {

    AlarmList {
        requireNonNull(shown, "shown");
        requireNonNull(brief, "brief");
    }

    static AlarmList of(Shown shown) {
        return new AlarmList(shown, BriefTimes.of(shown.zone(), Who.nowMicros()));
    }

    /** Prints both; returns whether there was room for all of them. */
    boolean print(List<StoredAlarm> alarms, OutageChoice outages, TableWidth width) {
        List<StoredAlarm> standing = standing(alarms);
        List<StoredAlarm> others = others(alarms);
        boolean whole = true;
        if (standing.isEmpty()) {
            width.say("No alarm stands.");
        } else {
            whole = width.print(table(standing, outages, true));
            outages.outages().forEach(outage -> width.say(words(outage, outages)));
        }
        if (!others.isEmpty()) {
            width.say("");
            width.say("Gone, shelved or held back:");
            whole &= width.print(table(others, outages, false));
        }
        return whole;
    }

    private static List<StoredAlarm> standing(List<StoredAlarm> alarms) {
        return alarms.stream()
                .filter(StoredAlarm::isActive)
                .sorted(StoredAlarm.WORST_FIRST)
                .toList();
    }

    /** Returned, shelved, held back. */
    private static List<StoredAlarm> others(List<StoredAlarm> alarms) {
        return alarms.stream().filter(a -> !a.isActive()).sorted(StoredAlarm.WORST_FIRST).toList();
    }

    /**
     * @param standing whether they stand: then what was measured comes before the state
     */
    private TextTable table(List<StoredAlarm> alarms, OutageChoice outages, boolean standing) {
        TextTable table =
                new TextTable("no.")
                        .soft("machine", 8)
                        .firm("grade")
                        .firm("seen")
                        .soft("what", standing ? 16 : 11)
                        .soft(standing ? "measured, limit" : "state", standing ? 15 : 25)
                        .firm("since")
                        .spare(standing ? "state" : "measured, limit")
                        .spare("gauges in / out")
                        .spare("times")
                        .spare("raised")
                        .spare("changed");
        Set<OutageNow> told = new HashSet<>();
        for (StoredAlarm alarm : alarms) {
            AlarmChange change = alarm.change();
            Finding finding = change.finding();
            Optional<OutageNow> outage = outages.of(alarm);
            if (outage.isPresent()) {
                if (told.add(outage.get())) {
                    row(outage.get(), outages, table);
                }
                continue;
            }
            String measured = shown.findings().beside(finding);
            table.row(
                    Long.toString(alarm.number()),
                    alarm.machine(),
                    finding.grade().name(),
                    seen(alarm),
                    shown.findings().what(finding),
                    standing ? measured : stateAlone(change),
                    brief.day(standing ? change.raisedAtMicros() : change.atMicros()),
                    standing ? state(change) : measured,
                    shown.pressure(finding.inletPsi())
                            + " / "
                            + shown.pressure(finding.boostedPsi()),
                    Integer.toString(change.notes().count()),
                    shown.time(change.raisedAtMicros()),
                    shown.time(change.atMicros()));
        }
        return table;
    }

    /** All of it in one row. */
    private void row(OutageNow outage, OutageChoice outages, TextTable table) {
        AlarmChange change = outage.alarms().get(0).change();
        table.row(
                Long.toString(outage.number()),
                String.join(", ", outage.blind().keySet()),
                outage.grade().name(),
                outage.needsAcknowledging() ? "no" : "yes",
                outages.what(outage),
                outages.blind(outage),
                brief.day(change.raisedAtMicros()),
                state(change),
                "-",
                Integer.toString(outage.channels().size()),
                shown.time(change.raisedAtMicros()),
                shown.time(change.atMicros()));
    }

    private static String words(OutageNow outage, OutageChoice outages) {
        return outage.number()
                + " stands for "
                + outage.channels().size()
                + " alarms: "
                + outages.what(outage)
                + ". leat is blind there: "
                + outages.blind(outage)
                + ". leat ack "
                + outage.number()
                + " is enough for all of them.";
    }

    /** Every change of one alarm, with who and why. */
    TextTable history(List<StoredAlarm> changes) {
        TextTable table =
                new TextTable("when", "what happened")
                        .soft("state", 12)
                        .firm("grade")
                        .soft("by", 6)
                        .soft("why", 10)
                        .spare("measured, limit")
                        .spare("what")
                        .spare("times")
                        .spare("exactly when");
        for (StoredAlarm one : changes) {
            AlarmChange change = one.change();
            table.row(
                    brief.time(change.atMicros()),
                    change.event().key(),
                    state(change),
                    change.finding().grade().name(),
                    change.by(),
                    AlarmWords.ENGLISH.why(change.notes()),
                    shown.findings().beside(change.finding()),
                    shown.findings().what(change.finding()),
                    Integer.toString(change.notes().count()),
                    shown.time(change.atMicros()));
        }
        return table;
    }

    /** Without whether somebody has seen it: that stands in a column of its own. */
    private String stateAlone(AlarmChange change) {
        return state(change).replaceFirst("-(un)?acknowledged", "");
    }

    private static String seen(StoredAlarm alarm) {
        AlarmState own = alarm.own();
        return own == AlarmState.NORMAL ? "-" : own.needsAcknowledging() ? "no" : "yes";
    }

    /** The state, until when, and for what is held back whether the trouble is there now. */
    private String state(AlarmChange change) {
        AlarmNotes notes = change.notes();
        StringBuilder words = new StringBuilder(change.to().key());
        if (change.to().isHeld()) {
            notes.shelvedUntilMicros()
                    .ifPresent(until -> words.append(" until ").append(brief.time(until)));
            words.append(notes.own().isActive() ? ", active" : ", gone for now");
        }
        return words.append(notes.chattering() ? ", comes and goes" : "").toString();
    }
}
