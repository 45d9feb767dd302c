package leat.store;

import java.util.function.ToLongFunction;
import leat.alarm.AlarmChange;
import leat.alarm.ServiceChange;
import leat.measure.RestSpell;
import leat.measure.Startup;
import leat.measure.SteadySpell;
import leat.phase.PhaseChange;
import leat.rule.Baseline;
import leat.rule.Learning;
import leat.rule.StartupVerdict;
import leat.signal.Instruction;
import leat.watch.Outcome;

/** Writes each outcome to the table of its kind, within the transaction of a commit. */
final class OutcomeWriter implements Outcome.Receiver {

    /** The first columns of each outcome's table. */
    static final String CAUSE = "machine, seq, nth, config_hash, ";

    static final String REFUSAL = "at_us, kind, by_whom, detail, reason";

    static final String SERVICE = "at_us, is_on, until_us, by_whom, why";

    private static final String REFUSED =
            "UPDATE instruction SET refused = ? WHERE machine = ? AND taken_seq = ?";

    private final Db db;
    private final ToLongFunction<String> machineIds;
    private final Said said;

    private OutcomeWriter(Db db, ToLongFunction<String> machineIds, Said said) {
        this.db = db;
        this.machineIds = machineIds;
        this.said = said;
    }

    static void write(Db db, ToLongFunction<String> machineIds, Said said) {
        said.outcome().to(new OutcomeWriter(db, machineIds, said));
    }

    @Override
    public void phaseChanged(PhaseChange change) {
        EpisodeTables.put(begin("phase_change", EpisodeTables.PHASE_CHANGE), change).now();
    }

    @Override
    public void startupMeasured(Startup startup, StartupVerdict verdict) {
        Write row = begin("startup", EpisodeTables.STARTUP + ", " + EpisodeTables.VERDICT);
        EpisodeTables.put(EpisodeTables.put(row, startup), verdict).now();
        StartupFigures.put(db, machine(), said.seq(), said.nth(), startup.figures());
    }

    @Override
    public void steadyMeasured(SteadySpell spell) {
        EpisodeTables.put(begin("steady", EpisodeTables.STEADY), spell).now();
    }

    @Override
    public void restMeasured(RestSpell spell) {
        EpisodeTables.put(begin("rest", EpisodeTables.REST), spell).now();
    }

    @Override
    public void alarmChanged(AlarmChange change) {
        AlarmTables.stand(db, machine(), said.configHash(), change);
        AlarmTables.put(begin("alarm_event", AlarmTables.EVENT), change).now();
    }

    @Override
    public void learningProgressed(Learning learning) {
        BaselineTables.put(begin("learning", BaselineTables.LEARNING), learning).now();
    }

    @Override
    public void baselineLearned(Baseline baseline) {
        Write row = begin("baseline", "learned_us");
        BaselineTables.put(db, row, machine(), said.seq(), said.nth(), baseline);
    }

    @Override
    public void instructionRefused(Instruction instruction, String reason) {
        InstructionWords words = InstructionWords.of(instruction);
        begin("refusal", REFUSAL)
                .number(instruction.atMicros())
                .word(words.kind())
                .text(words.by())
                .text(words.detail())
                .text(reason)
                .now();
        db.write(REFUSED).text(reason).text(said.machine()).number(said.seq()).now();
    }

    @Override
    public void serviceChanged(ServiceChange change) {
        begin("service", SERVICE)
                .number(change.atMicros())
                .flag(change.on())
                .number(change.untilMicros())
                .text(change.by())
                .text(change.why())
                .now();
    }

    private Write begin(String table, String columns) {
        return db.insert(table, CAUSE + columns)
                .number(machine())
                .number(said.seq())
                .number(said.nth())
                .text(said.configHash());
    }

    private long machine() {
        return machineIds.applyAsLong(said.machine());
    }
}
