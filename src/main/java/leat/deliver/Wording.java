package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.config.Site;
import leat.diagnose.Advice;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PlainText;

/**
 * Says a change of an alarm in words that a technician can act on. The same change always gives the
 * same message. Immutable.
 */
final class Wording {

    private static final int WIDTH = 100;
    private static final int LONGEST_NAME = 80;
    private static final int LONGEST_DETAIL = 1000;

    private final String site;
    private final Figures figures;

    Wording(Site site) {
        this.site = PlainText.harmless(requireNonNull(site, "site").name(), LONGEST_NAME);
        this.figures = new Figures(site.shownIn(), site.zone());
    }

    Message message(String machine, AlarmChange change) {
        Finding finding = change.finding();
        Advice advice = Advice.on(finding.rule(), finding.grade());
        String subject = subject(machine, change);
        String text = text(machine, change, advice);
        String detail = detail(finding);
        return new Message(
                id(change),
                change.alarmId(),
                machine,
                topic(machine, finding),
                change.isCall() ? Message.Kind.CALL : Message.Kind.NEWS,
                change.event().key(),
                finding.grade(),
                change.atMicros(),
                subject,
                text,
                AlarmJson.write(
                        id(change),
                        site,
                        machine,
                        change,
                        change.event().key(),
                        advice,
                        detail,
                        by(change),
                        subject,
                        text));
    }

    /** The call about an alarm that stands, told again as it is now. */
    Message reminder(Unanswered alarm, Reminder reminder, long atMicros) {
        AlarmChange change = alarm.latest();
        Finding finding = change.finding();
        Advice advice = Advice.on(finding.rule(), finding.grade());
        String about = alarm.machine() + ": " + what(finding);
        String subject =
                finding.grade() + " (" + reminder.words() + ") " + about + ", " + measured(finding);
        String since = figures.local(alarm.sinceMicros());
        String words = "Nobody has acknowledged it since " + since + ".";
        String text = call(alarm.machine(), change, advice, reminder.id(), Optional.of(words));
        return new Message(
                reminder.id(),
                change.alarmId(),
                alarm.machine(),
                topic(alarm.machine(), finding),
                Message.Kind.CALL,
                reminder.event(),
                finding.grade(),
                atMicros,
                subject,
                text,
                AlarmJson.write(
                        reminder.id(),
                        site,
                        alarm.machine(),
                        change,
                        reminder.event(),
                        advice,
                        detail(finding),
                        by(change),
                        subject,
                        text));
    }

    private static String id(AlarmChange change) {
        return change.alarmId() + "/" + change.revision();
    }

    /** One state per rule; for a rule about signals one per channel. */
    private static String topic(String machine, Finding finding) {
        String topic = machine + "/alarm/" + finding.rule().key();
        return isAboutSignal(finding.rule()) ? topic + "/" + finding.channel().key() : topic;
    }

    private static boolean isAboutSignal(Rule rule) {
        return switch (rule) {
            case SIGNAL_MISSING, SIGNAL_BAD, SIGNAL_STUCK -> true;
            case RATIO, LEVEL_LOW, LEVEL_HIGH, RISE, REST, INLET, BASELINE -> false;
        };
    }

    private String subject(String machine, AlarmChange change) {
        Finding finding = change.finding();
        String about = machine + ": " + what(finding);
        return switch (change.event()) {
            case RAISED -> finding.grade() + " " + about + ", " + measured(finding);
            case WORSENED -> finding.grade() + " (worse) " + about + ", " + measured(finding);
            case EASED -> "eased to " + finding.grade() + " " + about + ", " + measured(finding);
            case RETURNED -> "back to normal " + about;
            case ACKNOWLEDGED -> "acknowledged " + about;
            case LATCHED -> "gone, but latched " + about;
            case RESET -> "reset " + about;
            case CHATTERING ->
                    finding.grade() + " (comes and goes) " + about + ", " + measured(finding);
            case SHELVED -> "shelved " + about;
            case SUPPRESSED -> "in service " + about;
            case REMOVED -> "alarm taken out of service " + about;
            case UNSHELVED, RELEASED, RESTORED ->
                    change.isCall()
                            ? finding.grade() + " (still) " + about + ", " + measured(finding)
                            : endOfHold(change) + about;
            case REPEATED -> "came again " + about;
            case SETTLED -> "stands " + about;
        };
    }

    private static String endOfHold(AlarmChange change) {
        return switch (change.notes().own()) {
            case NORMAL -> "over, back to normal ";
            case RETURNED_UNACKNOWLEDGED -> "not acknowledged, back to normal ";
            case LATCHED_UNACKNOWLEDGED, LATCHED_ACKNOWLEDGED -> "gone, but latched ";
            case UNACKNOWLEDGED, ACKNOWLEDGED, SHELVED, SUPPRESSED, OUT_OF_SERVICE -> "still ";
        };
    }

    private String text(String machine, AlarmChange change, Advice advice) {
        return change.isCall()
                ? call(machine, change, advice, id(change), callWords(change))
                : news(machine, change);
    }

    private String call(
            String machine, AlarmChange change, Advice advice, String id, Optional<String> words) {
        Finding finding = change.finding();
        List<String> lines = new ArrayList<>();
        lines.add(finding.grade() + ": " + finding.grade().meaning() + ".");
        lines.add(site + ", " + machine + ": " + what(finding) + ".");
        lines.add("Measured: " + judged(finding) + " " + measured(finding) + ".");
        lines.add("Should be: " + limit(finding) + ".");
        lines.add("Since: " + figures.local(finding.sinceMicros()) + ".");
        gauges(finding).ifPresent(lines::add);
        String detail = detail(finding);
        if (!detail.isEmpty()) {
            lines.add("Also: " + detail);
        }
        words.ifPresent(lines::add);
        lines.add("Check first:");
        for (int i = 0; i < advice.checkFirst().size(); i++) {
            lines.add((i + 1) + ". " + advice.checkFirst().get(i));
        }
        lines.add("Caution: " + advice.caution());
        lines.add("Message " + id + ".");
        return wrapped(lines);
    }

    /** Why somebody is called now for what may have been there for a while. */
    private Optional<String> callWords(AlarmChange change) {
        int count = change.notes().count();
        return switch (change.event()) {
            case CHATTERING ->
                    Optional.of(
                            "It comes and goes: "
                                    + count
                                    + " times since it was first raised. From now on repeats are"
                                    + " counted, not told, until it keeps still.");
            case UNSHELVED ->
                    Optional.of("It was shelved and is active" + endedBecause(change) + ".");
            case RELEASED ->
                    Optional.of(
                            "It was held back while the machine was in service and is still"
                                    + " active"
                                    + endedBecause(change)
                                    + ".");
            case RESTORED ->
                    Optional.of(
                            "This alarm was out of service and is active"
                                    + endedBecause(change)
                                    + ".");
            case RAISED ->
                    count > 1 ? Optional.of("It has come " + count + " times.") : Optional.empty();
            case WORSENED,
                    EASED,
                    RETURNED,
                    ACKNOWLEDGED,
                    LATCHED,
                    RESET,
                    SHELVED,
                    SUPPRESSED,
                    REMOVED,
                    REPEATED,
                    SETTLED ->
                    Optional.empty();
        };
    }

    /** Why a hold ended; where nobody said why, who ended it. */
    private static String endedBecause(AlarmChange change) {
        return change.notes().why().isBlank() && !by(change).isEmpty()
                ? "; " + by(change) + " has ended that"
                : because(change);
    }

    /** By whom and why, as far as that is known; begins with a colon or is empty. */
    private static String because(AlarmChange change) {
        String why = PlainText.harmless(change.notes().why(), LONGEST_DETAIL);
        String who = by(change).isEmpty() ? "" : "said by " + by(change);
        String both = why + (why.isEmpty() || who.isEmpty() ? "" : ", ") + who;
        return both.isEmpty() ? "" : ": " + both;
    }

    /** What needs nobody to go anywhere is said shortly. */
    private String news(String machine, AlarmChange change) {
        Finding finding = change.finding();
        List<String> lines = new ArrayList<>();
        String about = site + ", " + machine + ": " + what(finding);
        String at = figures.local(change.atMicros());
        switch (change.event()) {
            case EASED -> {
                lines.add("Eased to " + finding.grade() + ": " + finding.grade().meaning() + ".");
                lines.add(about + ", " + at + ".");
                lines.add("Measured: " + judged(finding) + " " + measured(finding) + ".");
                lines.add("Should be: " + limit(finding) + ".");
            }
            case RETURNED -> {
                lines.add("Back to normal.");
                lines.add(about + ", " + at + ".");
                lines.add("It was " + finding.grade() + ": " + measured(finding) + ".");
                gauges(finding).ifPresent(lines::add);
                if (!finding.detail().isEmpty()) {
                    lines.add("Now: " + detail(finding) + ".");
                }
            }
            case ACKNOWLEDGED -> {
                lines.add(
                        "Acknowledged" + (by(change).isEmpty() ? "." : " by " + by(change) + "."));
                lines.add(about + ", " + at + ".");
                lines.add(
                        change.to().isActive()
                                ? "It stands at " + finding.grade() + "."
                                : change.to() == AlarmState.LATCHED_ACKNOWLEDGED
                                        ? "It has gone and is latched: it waits for its reset."
                                        : "It has returned to normal.");
            }
            case LATCHED -> {
                lines.add("Gone, but latched: it stays until it is acknowledged and reset.");
                lines.add(about + ", " + at + ".");
                lines.add("It was " + finding.grade() + ": " + measured(finding) + ".");
                gauges(finding).ifPresent(lines::add);
            }
            case RESET -> {
                lines.add("Reset" + (by(change).isEmpty() ? "." : " by " + by(change) + "."));
                lines.add(about + ", " + at + ".");
            }
            case SHELVED -> {
                lines.add("Shelved" + until(change) + because(change) + ".");
                lines.add(about + ", " + at + ".");
                lines.add("Nobody is called for it meanwhile, unless it gets graver.");
            }
            case SUPPRESSED -> {
                lines.add("The machine is in service" + because(change) + ".");
                lines.add(about + ", " + at + ".");
                lines.add("Nobody is called for its pressures until the service ends.");
            }
            case REMOVED -> {
                lines.add("This alarm is out of service" + because(change) + ".");
                lines.add(about + ", " + at + ".");
                lines.add("Nobody is called for it until somebody puts it back.");
            }
            case UNSHELVED, RELEASED, RESTORED -> {
                lines.add(holdWords(change) + endedBecause(change) + ".");
                lines.add(about + ", " + at + ".");
                lines.add("It has gone meanwhile.");
            }
            case RAISED, WORSENED, CHATTERING, REPEATED -> {
                lines.add("It came, and nobody is called for it.");
                lines.add(about + ", " + at + ".");
            }
            case SETTLED -> {
                lines.add("It no longer comes and goes: it stands.");
                lines.add(about + ", " + at + ".");
            }
        }
        lines.add("Raised: " + figures.local(change.raisedAtMicros()) + ".");
        if (change.notes().count() > 1) {
            lines.add("It has come " + change.notes().count() + " times.");
        }
        if (change.to() == AlarmState.RETURNED_UNACKNOWLEDGED) {
            lines.add("Nobody has acknowledged it yet.");
        }
        lines.add("Message " + id(change) + ".");
        return wrapped(lines);
    }

    private String until(AlarmChange change) {
        return change.notes().shelvedUntilMicros().isPresent()
                ? " until " + figures.local(change.notes().shelvedUntilMicros().getAsLong())
                : "";
    }

    private static String holdWords(AlarmChange change) {
        return switch (change.event()) {
            case UNSHELVED -> "No longer shelved";
            case RELEASED -> "The machine is no longer in service";
            case RESTORED -> "This alarm is back in service";
            case RAISED,
                    WORSENED,
                    EASED,
                    RETURNED,
                    ACKNOWLEDGED,
                    LATCHED,
                    RESET,
                    SHELVED,
                    SUPPRESSED,
                    REMOVED,
                    CHATTERING,
                    REPEATED,
                    SETTLED ->
                    throw new IllegalArgumentException("no end of a hold: " + change);
        };
    }

    private static String what(Finding finding) {
        return isAboutSignal(finding.rule())
                ? finding.channel().key() + " " + finding.rule().title(finding.grade())
                : finding.rule().title(finding.grade());
    }

    /** The name of the number that was judged. */
    private static String judged(Finding finding) {
        return switch (finding.quantity()) {
            case PRESSURE_PSI ->
                    finding.rule() == Rule.BASELINE
                            ? "pressure"
                            : finding.channel().key() + " pressure";
            case RATIO -> Channel.BOOSTED.key() + " over " + Channel.INLET.key() + " pressure";
            case TIME_SECONDS -> judgedTime(finding);
        };
    }

    private static String judgedTime(Finding finding) {
        return switch (finding.rule()) {
            case SIGNAL_MISSING, SIGNAL_BAD ->
                    "no good " + finding.channel().key() + " reading for";
            case SIGNAL_STUCK -> finding.channel().key() + " reading unchanged for";
            case RISE -> "time to rise";
            case RATIO, LEVEL_LOW, LEVEL_HIGH, REST, INLET, BASELINE -> "time";
        };
    }

    private String measured(Finding finding) {
        return figures.show(finding.quantity(), finding.measured());
    }

    /** What the two dial gauges should show, for a person in front of them. */
    private Optional<String> gauges(Finding finding) {
        if (!finding.inletPsi().isPresent() || !finding.boostedPsi().isPresent()) {
            return Optional.empty();
        }
        return Optional.of(
                "Gauges: inlet "
                        + figures.show(Quantity.PRESSURE_PSI, finding.inletPsi().get())
                        + ", boosted "
                        + figures.show(Quantity.PRESSURE_PSI, finding.boostedPsi().get())
                        + ".");
    }

    private String limit(Finding finding) {
        return senseWords(finding.sense()) + figures.show(finding.quantity(), finding.limit());
    }

    private static String senseWords(Sense sense) {
        return switch (sense) {
            case AT_LEAST -> "at least ";
            case AT_MOST -> "at most ";
        };
    }

    private String detail(Finding finding) {
        return figures.inSiteUnit(PlainText.harmless(finding.detail(), LONGEST_DETAIL));
    }

    private static String by(AlarmChange change) {
        return PlainText.harmless(change.by(), LONGEST_NAME);
    }

    private static String wrapped(List<String> lines) {
        StringBuilder text = new StringBuilder();
        lines.forEach(line -> wrap(line, text));
        return text.substring(0, text.length() - 1);
    }

    /** Breaks at spaces; continued lines are indented. A word longer than a line stays whole. */
    private static void wrap(String line, StringBuilder text) {
        String rest = line;
        String indent = "";
        while (indent.length() + rest.length() > WIDTH) {
            int space = rest.lastIndexOf(' ', WIDTH - indent.length());
            space = space > 0 ? space : rest.indexOf(' ');
            if (space <= 0) {
                break;
            }
            text.append(indent).append(rest, 0, space).append('\n');
            rest = rest.substring(space + 1);
            indent = "   ";
        }
        text.append(indent).append(rest).append('\n');
    }
}
