package leat.replay;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeMap;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.measure.RestSpell;
import leat.measure.SteadySpell;
import leat.phase.PhaseChange;
import leat.report.Json;
import leat.rule.Finding;
import leat.signal.Channel;

/**
 * A replay as one JSON document; {@code config/replay.schema.json} describes it. The same replay
 * gives the same bytes. Immutable.
 *
 * @param configHash the configuration that it was judged under; empty for the defaults
 * @param zeroMicros where the past counts its own seconds: time of second 0, microseconds UTC
 */
public record ReplayJson(Optional<String> configHash, OptionalLong zeroMicros) {

    private static final String SCHEMA = "leat.replay/1";
    private static final double MICROS_PER_SECOND = 1e6;

    public String write(Replayed replayed) {
        String machine = replayed.settings().machine();
        ObjectNode json = Json.object();
        json.put("schema", SCHEMA);
        json.put("machine", machine);
        json.put("from", Json.time(replayed.fromMicros()));
        json.put("to", Json.time(replayed.toMicros()));
        json.put("config_hash", configHash.orElse(null));
        limits(json.putObject("limits_changed"), replayed);
        counts(json.putObject("counts"), replayed.counts());
        json.set(
                "baseline",
                replayed.baseline().map(known -> (JsonNode) Json.baseline(known)).orElse(null));
        ArrayNode startups = json.putArray("startups");
        for (JudgedStartup judged : replayed.startups()) {
            ObjectNode startup = Json.startup(machine, judged.startup(), judged.verdict());
            startups.add(onOwnAxis(startup, "t_s", judged.startup().startedAtMicros()));
        }
        ArrayNode rests = json.putArray("rests");
        for (RestSpell spell : replayed.rests()) {
            rests.add(onOwnAxis(Json.rest(machine, spell), "t_s", spell.stoppedAtMicros()));
        }
        ArrayNode steadies = json.putArray("steadies");
        for (SteadySpell spell : replayed.steadies()) {
            steadies.add(onOwnAxis(Json.steady(machine, spell), "t_s", spell.fromMicros()));
        }
        ArrayNode alarms = json.putArray("alarms");
        replayed.alarms().forEach(alarm -> alarms.add(alarm(alarm)));
        ArrayNode phases = json.putArray("phases");
        for (PhaseChange change : replayed.phases()) {
            phases.add(onOwnAxis(Json.phase(change), "t_s", change.atMicros()));
        }
        ArrayNode refused = json.putArray("refused");
        replayed.refused().forEach(refused::add);
        return Json.print(json);
    }

    private static void limits(ObjectNode json, Replayed replayed) {
        new TreeMap<>(replayed.settings().limits().changed())
                .forEach((limit, value) -> json.put(limit.key(), value));
    }

    private static void counts(ObjectNode json, Counts counts) {
        json.put("inputs", counts.inputs());
        ObjectNode readings = json.putObject("readings");
        for (Channel channel : Channel.values()) {
            if (counts.readings().containsKey(channel)) {
                readings.put(channel.key(), counts.readings().get(channel));
            }
        }
        json.put("uncertain", counts.uncertain());
        json.put("bad", counts.bad());
        json.put("dropped_late", counts.late());
        json.put("dropped_ahead", counts.ahead());
        json.put("gaps", counts.gaps());
        json.put("longest_gap_s", counts.longestGapMicros() / MICROS_PER_SECOND);
    }

    private ObjectNode alarm(AlarmLife alarm) {
        Finding finding = alarm.gravest();
        ObjectNode json = Json.object();
        json.put("id", alarm.first().alarmId());
        json.put("rule", finding.rule().key());
        json.put("channel", finding.channel().key());
        json.put("grade", Json.word(finding.grade()));
        json.put("raised_at", Json.time(alarm.first().atMicros()));
        onOwnAxis(json, "t_s", alarm.first().atMicros());
        time(json, "returned", alarm.returned());
        time(json, "acknowledged", alarm.acknowledged());
        json.put("state", alarm.last().to().key());
        json.put("since", Json.time(finding.sinceMicros()));
        json.put("quantity", Json.word(finding.quantity()));
        json.put("measured", finding.measured());
        json.put("limit", finding.limit());
        json.put("sense", Json.word(finding.sense()));
        json.put("detail", Json.IN_PSI.remarks(finding));
        ArrayNode grades = json.putArray("grades");
        for (AlarmChange change : alarm.changes()) {
            if (isAboutGrade(change.event())) {
                grades.addObject()
                        .put("at", Json.time(change.atMicros()))
                        .put("grade", Json.word(change.finding().grade()));
            }
        }
        return json;
    }

    private static boolean isAboutGrade(AlarmEvent event) {
        return switch (event) {
            case RAISED, WORSENED, EASED, CHATTERING -> true;
            case RETURNED,
                    ACKNOWLEDGED,
                    LATCHED,
                    RESET,
                    SHELVED,
                    UNSHELVED,
                    SUPPRESSED,
                    RELEASED,
                    REMOVED,
                    RESTORED,
                    REPEATED,
                    SETTLED ->
                    false;
        };
    }

    private void time(ObjectNode json, String what, Optional<AlarmChange> change) {
        json.put(what + "_at", change.map(c -> Json.time(c.atMicros())).orElse(null));
        change.ifPresent(c -> onOwnAxis(json, what + "_t_s", c.atMicros()));
    }

    private ObjectNode onOwnAxis(ObjectNode json, String name, long micros) {
        if (zeroMicros.isPresent()) {
            json.put(name, (micros - zeroMicros.getAsLong()) / MICROS_PER_SECOND);
        }
        return json;
    }
}
