package leat.deliver;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmNotes;
import leat.diagnose.Diagnosis;
import leat.json.Document;
import leat.json.WeighedCause;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.signal.Keyword;
import leat.signal.PlainText;
import leat.words.AlarmWords;
import leat.words.FindingWords;

/**
 * A change of an alarm as JSON by the schema {@code leat.alarm/1}, see {@code
 * config/alarm-message.schema.json}: times ISO 8601 in UTC, pressures in psi whatever the site is
 * shown in; what people read in the language of the site. A new field may join within a version; a
 * field that goes or changes makes a new one.
 */
final class AlarmJson {

    static final String SCHEMA = "leat.alarm/1";

    private static final ObjectMapper JSON = new ObjectMapper();

    /** Finer than any transducer here. */
    private static final int DECIMALS = 4;

    private static final int LONGEST_WHY = 1000;

    private final Voice voice;
    private final CauseText causes;

    AlarmJson(Voice voice) {
        this.voice = voice;
        this.causes = new CauseText(voice);
    }

    /**
     * @param id of the message
     * @param about what the message is about
     * @param why what is known of the cause, as far as anybody looked for it
     * @param number by which people call the alarm; left out when it is not stored
     */
    String write(
            String id,
            About about,
            AlarmChange change,
            Optional<Diagnosis> why,
            OptionalLong number,
            String subject,
            String text) {
        FindingWords words = voice.findings();
        Finding finding = change.finding();
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("schema", SCHEMA);
        json.put("id", id);
        json.put("alarm", change.alarmId());
        number.ifPresent(known -> json.put("number", known));
        json.put("revision", change.revision());
        json.put("site", voice.site());
        json.put("machine", about.machine());
        json.put("rule", finding.rule().key());
        json.put("title", words.title(finding.rule(), finding.grade()));
        json.put("channel", finding.channel().key());
        json.put("event", about.event());
        json.put("state", change.to().key());
        AlarmNotes notes = change.notes();
        json.put("own_state", notes.own().key());
        json.put("count", notes.count());
        json.put("chattering", notes.chattering());
        notes.shelvedUntilMicros().ifPresent(until -> json.put("shelved_until", time(until)));
        json.put("why", PlainText.harmless(AlarmWords.ENGLISH.why(notes), LONGEST_WHY));
        json.put("grade", finding.grade().name().toLowerCase(Locale.ROOT));
        json.put("at", time(change.atMicros()));
        json.put("raised_at", time(change.raisedAtMicros()));
        json.put("since", time(finding.sinceMicros()));
        json.set("measured", quantity(finding.quantity(), finding.measured()));
        ObjectNode limit = quantity(finding.quantity(), finding.limit());
        limit.put("sense", Keyword.of(finding.sense()));
        json.set("limit", limit);
        gauge(json, "inlet", finding.inletPsi());
        gauge(json, "boosted", finding.boostedPsi());
        json.put("detail", words.remarks(finding));
        why.ifPresent(known -> json.set("causes", causes(known)));
        causes.checks(finding, why).forEach(json.withArray("check_first")::add);
        json.put("caution", words.caution());
        json.put("by", People.by(change));
        json.put("language", voice.phrases().language().key());
        json.put("subject", subject);
        json.put("short", first(text));
        json.put("text", text);
        return json.toString();
    }

    /** The line of a text that needs no other. */
    static String first(String text) {
        return text.lines().findFirst().orElse("");
    }

    /** The JSON of a message, whatever its schema, that is told before it is stored. */
    static String unstored(String json, String text) {
        try {
            ObjectNode node = (ObjectNode) JSON.readTree(json);
            return node.put("text", text).put("stored", false).toString();
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("leat wrote it: " + json, e);
        }
    }

    /**
     * The likeliest cause, as programs know it.
     *
     * @param cause its key
     * @param weight 0 to 1, with a decimal point
     */
    record FirstCause(String cause, String weight) {}

    /** Of the JSON of a message, whatever it is; empty where it tells of none. */
    static Optional<FirstCause> firstCause(String json) {
        try {
            JsonNode first = JSON.readTree(json).path("causes").path(0);
            return first.isMissingNode()
                    ? Optional.empty()
                    : Optional.of(
                            new FirstCause(
                                    first.path("cause").asText(), first.path("weight").asText()));
        } catch (JsonProcessingException e) {
            return Optional.empty(); // what cannot be read tells of none
        }
    }

    private ArrayNode causes(Diagnosis why) {
        ArrayNode causes = JsonNodeFactory.instance.arrayNode();
        WeighedCause.of(why, voice.causes()).forEach(cause -> causes.add(Document.of(cause)));
        return causes;
    }

    /** What a gauge read at that time; left out when it could not be read. */
    private static void gauge(ObjectNode json, String name, Figure psi) {
        if (psi.isPresent()) {
            json.set(name, quantity(Finding.Quantity.PRESSURE_PSI, psi.get()));
        }
    }

    private static ObjectNode quantity(Finding.Quantity quantity, double value) {
        ObjectNode node = JsonNodeFactory.instance.objectNode();
        node.put("value", rounded(value));
        node.put("unit", unit(quantity));
        return node;
    }

    private static double rounded(double value) {
        return BigDecimal.valueOf(value).setScale(DECIMALS, RoundingMode.HALF_EVEN).doubleValue();
    }

    private static String unit(Finding.Quantity quantity) {
        return switch (quantity) {
            case PRESSURE_PSI -> "psi";
            case PRESSURE_PSI_PER_SECOND -> "psi/s";
            case TIME_SECONDS -> "s";
            case RATIO -> "1";
        };
    }

    private static String time(long micros) {
        return Voice.utc(micros);
    }
}
