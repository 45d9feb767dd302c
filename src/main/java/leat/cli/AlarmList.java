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

    private static final String MEASURED = "cli.column.measured";
    private static final String STATE = "cli.column.state";

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
            width.say(shown.say("cli.alarms.none"));
        } else {
            whole = width.print(table(standing, outages, true));
            outages.outages().forEach(outage -> width.say(words(outage, outages)));
        }
        if (!others.isEmpty()) {
            width.say("");
            width.say(shown.say("cli.alarms.others"));
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
                new TextTable(shown.say("cli.column.number"))
                        .soft(shown.say("cli.column.machine"), 8)
                        .firm(shown.say("cli.column.grade"))
                        .firm(shown.say("cli.column.seen"))
                        .soft(shown.say("cli.column.what"), standing ? 16 : 11)
                        .soft(shown.say(standing ? MEASURED : STATE), standing ? 15 : 25)
                        .firm(shown.say("cli.column.since"))
                        .spare(shown.say(standing ? STATE : MEASURED))
                        .spare(shown.say("cli.column.gauges"))
                        .spare(shown.say("cli.column.times"))
                        .spare(shown.say("cli.column.raised"))
                        .spare(shown.say("cli.column.changed"));
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
                    shown.findings().grade(finding.grade()),
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

    private String words(OutageNow outage, OutageChoice outages) {
        return shown.say(
                "cli.alarms.outage",
                Long.toString(outage.number()),
                outage.channels().size(),
                outages.what(outage),
                outages.blind(outage));
    }

    /** Every change of one alarm, with who and why. */
    TextTable history(List<StoredAlarm> changes) {
        TextTable table =
                new TextTable(shown.say("cli.column.when"), shown.say("cli.column.happened"))
                        .soft(shown.say(STATE), 12)
                        .firm(shown.say("cli.column.grade"))
                        .soft(shown.say("cli.column.by"), 6)
                        .soft(shown.say("cli.column.why"), 10)
                        .spare(shown.say(MEASURED))
                        .spare(shown.say("cli.column.what"))
                        .spare(shown.say("cli.column.times"))
                        .spare(shown.say("cli.column.exactly"));
        for (StoredAlarm one : changes) {
            AlarmChange change = one.change();
            table.row(
                    brief.time(change.atMicros()),
                    shown.say("cli.event." + change.event().key()),
                    state(change),
                    shown.findings().grade(change.finding().grade()),
                    change.by(),
                    new AlarmWords(shown.phrases()).why(change.notes()),
                    shown.findings().beside(change.finding()),
                    shown.findings().what(change.finding()),
                    Integer.toString(change.notes().count()),
                    shown.time(change.atMicros()));
        }
        return table;
    }

    /** Without whether somebody has seen it: that stands in a column of its own. */
    private String stateAlone(AlarmChange change) {
        return state(change, change.to().key().replaceFirst("-(un)?acknowledged", ""));
    }

    private String seen(StoredAlarm alarm) {
        AlarmState own = alarm.own();
        if (own == AlarmState.NORMAL) {
            return "-";
        }
        return shown.say(own.needsAcknowledging() ? "cli.no" : "cli.yes");
    }

    /** The state, until when, and for what is held back whether the trouble is there now. */
    private String state(AlarmChange change) {
        return state(change, change.to().key());
    }

    private String state(AlarmChange change, String key) {
        AlarmNotes notes = change.notes();
        String words = shown.say("cli.state." + key);
        if (change.to().isHeld()) {
            if (notes.shelvedUntilMicros().isPresent()) {
                long until = notes.shelvedUntilMicros().getAsLong();
                words = shown.say("cli.held.until", words, brief.time(until));
            }
            words = shown.say(notes.own().isActive() ? "cli.held.active" : "cli.held.gone", words);
        }
        return notes.chattering() ? shown.say("cli.chattering", words) : words;
    }
}
