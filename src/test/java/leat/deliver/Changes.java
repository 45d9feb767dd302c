package leat.deliver;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.MachineSettings;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.StoreSettings;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Feature;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;
import leat.measure.Figure;
import leat.measure.absence.Absence;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Limits;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.store.Message;
import leat.words.Language;

/** Changes of alarms of the invented boatyard, for tests. */
final class Changes {

    static final long SINCE = micros("2026-01-05T06:00:31Z");
    static final long RAISED = micros("2026-01-05T06:01:01.25Z");

    private Changes() {}

    static long micros(String instant) {
        Instant at = Instant.parse(instant);
        return at.getEpochSecond() * 1_000_000 + at.getNano() / 1000;
    }

    static Site site(PressureUnit shownIn, RouteSettings... routes) {
        return site(Language.ENGLISH, shownIn, routes);
    }

    static Site site(Language language, PressureUnit shownIn, RouteSettings... routes) {
        return new Site(
                "Boatyard",
                ZoneId.of("Europe/Berlin"),
                language,
                shownIn,
                new StoreSettings(Path.of("."), Duration.ofDays(90)),
                List.of(),
                List.of(new MachineSettings("jet-1", List.of(), Limits.DEFAULTS)),
                List.of(routes),
                Optional.empty(),
                Optional.empty(),
                "0".repeat(64),
                "");
    }

    static Finding weakBoost(Grade grade, String detail) {
        return new Finding(
                Rule.RATIO,
                Channel.BOOSTED,
                grade,
                SINCE,
                RAISED,
                Quantity.RATIO,
                1.6249,
                2.0,
                Sense.AT_LEAST,
                Figure.of(44.51),
                Figure.of(72.32),
                detail.isEmpty()
                        ? List.of()
                        : List.of(new Remark(Remark.Kind.REPORTED, List.of(), detail)));
    }

    static Finding finding(Rule rule, Channel channel, Grade grade, Quantity quantity) {
        return new Finding(
                rule,
                channel,
                grade,
                SINCE,
                RAISED,
                quantity,
                41.5,
                5,
                Sense.AT_MOST,
                Figure.of(41.5),
                Figure.absent(Absence.NOT_BOTH_GAUGES),
                List.of());
    }

    /** Causes as they are known from a few starts, the likeliest first. */
    static Diagnosis why(Suspect... suspects) {
        return new Diagnosis(List.of(suspects), 4, 12, List.of());
    }

    /** With a drop under load that speaks for it, and an inlet that speaks against it. */
    static Suspect suspect(Cause cause, double weight, Check... check) {
        return new Suspect(
                cause,
                weight,
                List.of(
                        new Reason(Feature.DROP, 22.46, OptionalDouble.of(4.2), 3.1),
                        new Reason(Feature.RATIO, 1.62, OptionalDouble.of(2.4), 1.7)),
                List.of(new Reason(Feature.INLET_SAG, 1.02, OptionalDouble.empty(), -0.4)),
                Stream.of(check).findFirst());
    }

    static AlarmChange raised(Finding finding) {
        return change(1, AlarmEvent.RAISED, AlarmState.UNACKNOWLEDGED, finding, "");
    }

    static AlarmChange change(
            int revision, AlarmEvent event, AlarmState to, Finding finding, String by) {
        return new AlarmChange(
                "jet-1." + finding.rule().key() + ".20260105T060101Z",
                revision,
                event,
                AlarmState.NORMAL,
                to,
                RAISED + (revision - 1) * 60_000_000L,
                RAISED,
                finding,
                by);
    }

    /** A message of its own number, for tests that only carry messages. */
    static Message message(int number) {
        return new Message(
                "jet-1.ratio.20260105T060101Z/" + number,
                "hall",
                "jet-1",
                "jet-1.ratio.20260105T060101Z",
                Grade.WARNING,
                RAISED + number,
                "jet-1/alarm/ratio",
                Message.Purpose.CALL,
                "raised",
                "subject " + number,
                "text " + number,
                "{\"number\":" + number + "}",
                Optional.empty());
    }

    /** The change in the words of its message. */
    static Message said(Wording wording, AlarmChange change) {
        return said(wording, new Changed("jet-1", change));
    }

    static Message said(Wording wording, Changed changed) {
        AlarmChange change = changed.change();
        return wording.message(new Notification(changed.id(), "hall", change.atMicros(), changed));
    }

    /** A notice, digest or the like, said to the hall. */
    static Message said(Site site, String id, About about) {
        return new Wording(site).message(new Notification(id, "hall", RAISED, about));
    }

    /** What is owed because of an occasion. */
    static List<Notification> owed(Annunciator annunciator, Occasion occasion) {
        List<Notification> owed = new ArrayList<>();
        annunciator.feed(occasion, owed::add);
        return owed;
    }
}
