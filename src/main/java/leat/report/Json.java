package leat.report;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmNotes;
import leat.measure.Figure;
import leat.measure.RestSpell;
import leat.measure.Startup;
import leat.measure.SteadySpell;
import leat.phase.PhaseChange;
import leat.rule.Baseline;
import leat.rule.Finding;
import leat.rule.Learning;
import leat.rule.StartupVerdict;
import leat.signal.PlainText;
import leat.signal.PressureUnit;
import leat.words.FindingWords;
import leat.words.Language;
import leat.words.Numbers;
import leat.words.Phrases;

/**
 * Episodes and alarms as JSON for scripts: pressures psi gauge, times of day ISO 8601 in UTC, an
 * absent number is null with its reason in a field of the same name and {@code _absent} behind it;
 * the 95 % uncertainty of a number, where it is known, stands in one with {@code _uncertainty}.
 */
public final class Json {

    private static final ObjectMapper MAPPER =
            new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

    private static final ObjectMapper SNAKE =
            new ObjectMapper().setPropertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE);

    /** For further facts to a finding: programs get psi, and English, whatever the site is in. */
    public static final FindingWords IN_PSI =
            new FindingWords(
                    Phrases.in(Language.ENGLISH),
                    new Numbers(Language.ENGLISH, PressureUnit.PSI, ZoneOffset.UTC));

    private Json() {}

    public static ObjectNode object() {
        return JsonNodeFactory.instance.objectNode();
    }

    /**
     * The document: harmless on a terminal, and its texts can be read back, but for half a
     * surrogate pair, which no JSON can hold and which becomes U+FFFD.
     */
    public static String print(ObjectNode document) {
        try {
            return harmless(MAPPER.writeValueAsString(document));
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of plain values cannot fail to print", e);
        }
    }

    /** What JSON lets stand in a text as it is, and should not be shown: as escapes. */
    private static String harmless(String json) {
        StringBuilder out = new StringBuilder(json.length() + 16);
        for (int i = 0; i < json.length(); ) {
            int point = json.codePointAt(i);
            int units = Character.charCount(point);
            if (PlainText.isHarmless(point) || point == '\n' || point == '\r') {
                out.appendCodePoint(point);
            } else if (Character.getType(point) == Character.SURROGATE) {
                out.append("\\ufffd");
            } else {
                json.substring(i, i + units)
                        .chars()
                        .forEach(c -> out.append(String.format(Locale.ROOT, "\\u%04x", c)));
            }
            i += units;
        }
        return out.toString();
    }

    /** A record of plain values, its fields in lower case with underscores. */
    public static ObjectNode of(Record plain) {
        return SNAKE.valueToTree(plain);
    }

    public static String time(long micros) {
        return Instant.EPOCH.plus(micros, ChronoUnit.MICROS).toString();
    }

    public static ObjectNode startup(String machine, Startup startup, StartupVerdict verdict) {
        ObjectNode json = object();
        json.put("machine", machine);
        json.put("at", time(startup.startedAtMicros()));
        json.put("measured_at", time(startup.measuredAtMicros()));
        startup.figures().forEach((measurand, figure) -> put(json, measurand.key(), figure));
        ArrayNode remarks = json.putArray("remarks");
        startup.remarks().forEach(remarks::add);
        json.put("risen", startup.risen());
        json.put("verdict", word(verdict.outcome()));
        json.put("note", verdict.note());
        return json;
    }

    public static ObjectNode rest(String machine, RestSpell spell) {
        ObjectNode json = object();
        json.put("machine", machine);
        json.put("at", time(spell.stoppedAtMicros()));
        json.put("measured_at", time(spell.measuredAtMicros()));
        put(json, "boosted_psi", spell.boostedPsi());
        put(json, "inlet_psi", spell.inletPsi());
        put(json, "fall_s", spell.fallSeconds());
        json.put("settled", spell.settled());
        return json;
    }

    public static ObjectNode steady(String machine, SteadySpell spell) {
        ObjectNode json = object();
        json.put("machine", machine);
        json.put("at", time(spell.fromMicros()));
        json.put("to", time(spell.toMicros()));
        json.put("samples", spell.samples());
        put(json, "inlet_psi", spell.inletPsi());
        put(json, "boosted_psi", spell.boostedPsi());
        put(json, "boosted_low_psi", spell.boostedLowPsi());
        put(json, "boosted_high_psi", spell.boostedHighPsi());
        put(json, "ratio", spell.ratio());
        put(json, "ripple_psi", spell.ripplePsi());
        put(json, "wander_psi", spell.wanderPsi());
        return json;
    }

    public static ObjectNode phase(PhaseChange change) {
        ObjectNode json = object();
        json.put("at", time(change.atMicros()));
        json.put("from", change.from().key());
        json.put("to", change.to().key());
        json.put("reason", change.reason());
        return json;
    }

    public static ObjectNode alarm(String machine, AlarmChange change) {
        Finding finding = change.finding();
        ObjectNode json = object();
        json.put("machine", machine);
        json.put("id", change.alarmId());
        json.put("revision", change.revision());
        json.put("rule", finding.rule().key());
        json.put("channel", finding.channel().key());
        json.put("grade", word(finding.grade()));
        json.put("state", change.to().key());
        json.put("event", change.event().key());
        json.put("at", time(change.atMicros()));
        json.put("raised_at", time(change.raisedAtMicros()));
        json.put("since", time(finding.sinceMicros()));
        json.put("measured", finding.measured());
        json.put("limit", finding.limit());
        json.put("quantity", word(finding.quantity()));
        json.put("sense", word(finding.sense()));
        put(json, "inlet_psi", finding.inletPsi());
        put(json, "boosted_psi", finding.boostedPsi());
        json.put("detail", IN_PSI.remarks(finding));
        json.put("by", change.by());
        AlarmNotes notes = change.notes();
        json.put("own_state", notes.own().key());
        json.put("count", notes.count());
        json.put("chattering", notes.chattering());
        notes.shelvedUntilMicros().ifPresent(until -> json.put("shelved_until", time(until)));
        json.put("why", notes.why());
        return json;
    }

    /** What is usual for a machine: median, spread and count of each number. */
    public static ObjectNode baseline(Baseline baseline) {
        ObjectNode json = object();
        json.put("learned_at", time(baseline.learnedAtMicros()));
        ArrayNode starts = json.putArray("starts");
        baseline.starts().forEach(started -> starts.add(time(started)));
        ObjectNode figures = json.putObject("figures");
        baseline.figures()
                .forEach(
                        (measurand, usual) ->
                                figures.putObject(measurand.key())
                                        .put("median", usual.median())
                                        .put("spread", usual.spread())
                                        .put("count", usual.count()));
        return json;
    }

    /** How far learning of a baseline has come. */
    public static ObjectNode learning(Learning learning) {
        return object().put("at", time(learning.atMicros()))
                .put("good", learning.good())
                .put("wanted", learning.wanted())
                .put("cause", word(learning.cause()));
    }

    /** A figure with its uncertainty, or null and why. */
    public static void put(ObjectNode json, String name, Figure figure) {
        if (figure.isPresent()) {
            json.put(name, figure.get());
            figure.uncertainty().ifPresent(doubt -> json.put(name + "_uncertainty", doubt));
        } else {
            json.putNull(name);
            json.put(name + "_absent", figure.absentBecause());
        }
    }

    /** The name used in JSON, such as {@code very_slow}. */
    public static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT);
    }
}
