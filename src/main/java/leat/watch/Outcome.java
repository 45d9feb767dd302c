package leat.watch;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.Refusal;
import leat.alarm.ServiceChange;
import leat.diagnose.Diagnosis;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.measure.SteadySpell;
import leat.phase.PhaseChange;
import leat.rule.Baseline;
import leat.rule.JudgedRun;
import leat.rule.Learning;
import leat.rule.RunVerdict;
import leat.rule.StartupVerdict;
import leat.signal.Instruction;

/**
 * Everything that a watch can say. Each kind is a record here: its stored row and its JSON follow
 * from its components. A new one needs, for people, a view in {@code views.sql}.
 */
public sealed interface Outcome {

    /** Event time, microseconds UTC. */
    long atMicros();

    /** The feed line went from one phase to another. */
    record PhaseChanged(PhaseChange change) implements Outcome {
        public PhaseChanged {
            requireNonNull(change, "change");
        }

        @Override
        public long atMicros() {
            return change.atMicros();
        }
    }

    /** A start was measured and judged. */
    record StartupMeasured(Startup startup, StartupVerdict verdict) implements Outcome {
        public StartupMeasured {
            requireNonNull(startup, "startup");
            requireNonNull(verdict, "verdict");
        }

        @Override
        public long atMicros() {
            return startup.measuredAtMicros();
        }
    }

    /**
     * A run was judged: at its end, and each quarter of an hour and after each alarm while it
     * lasts. The newest of a run holds.
     */
    record RunJudged(Run run, RunVerdict verdict) implements Outcome {
        public RunJudged {
            requireNonNull(run, "run");
            requireNonNull(verdict, "verdict");
        }

        public JudgedRun judged() {
            return new JudgedRun(run, verdict);
        }

        @Override
        public long atMicros() {
            return run.endedAtMicros();
        }
    }

    /** A steady spell, or a closed part of it, was measured. */
    record SteadyMeasured(SteadySpell spell) implements Outcome {
        public SteadyMeasured {
            requireNonNull(spell, "spell");
        }

        @Override
        public long atMicros() {
            return spell.toMicros();
        }
    }

    /** The rest pressure after a stop was measured. */
    record RestMeasured(RestSpell spell) implements Outcome {
        public RestMeasured {
            requireNonNull(spell, "spell");
        }

        @Override
        public long atMicros() {
            return spell.measuredAtMicros();
        }
    }

    /**
     * An alarm changed.
     *
     * @param why of a call, the likeliest causes of what was seen since the alarm's condition came,
     *     as far as anything was seen; an older leat told none
     */
    record AlarmChanged(AlarmChange change, Optional<Diagnosis> why) implements Outcome {
        public AlarmChanged {
            requireNonNull(change, "change");
            requireNonNull(why, "why");
        }

        /** A change that calls nobody, or of whose cause nothing is known. */
        public AlarmChanged(AlarmChange change) {
            this(change, Optional.empty());
        }

        @Override
        public long atMicros() {
            return change.atMicros();
        }
    }

    /** Somebody began or ended work on the machine. */
    record ServiceChanged(ServiceChange change) implements Outcome {
        public ServiceChanged {
            requireNonNull(change, "change");
        }

        @Override
        public long atMicros() {
            return change.atMicros();
        }
    }

    /**
     * Learning of the machine's baseline began, or came further; while it goes on there is none.
     */
    record LearningProgressed(Learning learning) implements Outcome {
        public LearningProgressed {
            requireNonNull(learning, "learning");
        }

        @Override
        public long atMicros() {
            return learning.atMicros();
        }
    }

    /** The machine's own baseline is known: from the next start on it is judged by it too. */
    record BaselineLearned(Baseline baseline) implements Outcome {
        public BaselineLearned {
            requireNonNull(baseline, "baseline");
        }

        @Override
        public long atMicros() {
            return baseline.learnedAtMicros();
        }
    }

    /**
     * An instruction could not be followed.
     *
     * @param instruction what was asked
     * @param reason why not
     */
    record InstructionRefused(Instruction instruction, Refusal reason) implements Outcome {
        public InstructionRefused {
            requireNonNull(instruction, "instruction");
            requireNonNull(reason, "reason");
        }

        @Override
        public long atMicros() {
            return instruction.atMicros();
        }
    }
}
