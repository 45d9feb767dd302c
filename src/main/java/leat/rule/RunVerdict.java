package leat.rule;

import static java.util.Objects.requireNonNull;

import java.util.List;
import leat.signal.Channel;
import leat.signal.Keyword;

/**
 * How a run was judged, each thing by itself.
 *
 * @param parts what was looked at; a thing that the machine has no gauge for is not among them
 * @param raised what was called while it ran or when it ended, in order
 */
public record RunVerdict(List<Part> parts, List<Raised> raised) {

    /** What makes a run a good one. */
    public enum Aspect {
        /** The climb of its start. */
        RISE,
        /** The boosted level with the jet on. */
        LOADED,
        /** The boosted level with the jet off. */
        UNLOADED,
        /** Boosted over inlet pressure with the jet on. */
        RATIO,
        /** The inlet pressure with the jet on. */
        INLET,
        /** What the filters cost with the jet on. */
        FILTERS;

        /** Its name in JSON and among the phrases, such as {@code loaded}. */
        public String key() {
            return Keyword.of(this);
        }
    }

    /** How one thing was, or the whole. From the best to the gravest. */
    public enum Mark {
        GOOD,
        /** Not seen for long enough, or the data do not carry a judgement. */
        NOT_JUDGED,
        ADVISORY,
        WARNING,
        CRITICAL;

        /** Its name in JSON and among the phrases, such as {@code not-judged}. */
        public String key() {
            return Keyword.of(this);
        }

        /** That of a finding. */
        public static Mark of(Grade grade) {
            return switch (grade) {
                case ADVISORY -> ADVISORY;
                case WARNING -> WARNING;
                case CRITICAL -> CRITICAL;
            };
        }
    }

    /**
     * One thing of a run.
     *
     * @param mark how it was, by its mean over the run
     */
    public record Part(Aspect aspect, Mark mark) {
        public Part {
            requireNonNull(aspect, "aspect");
            requireNonNull(mark, "mark");
        }
    }

    /** An alarm that was raised or got worse. */
    public record Raised(Rule rule, Channel channel, Grade grade) {
        public Raised {
            requireNonNull(rule, "rule");
            requireNonNull(channel, "channel");
            requireNonNull(grade, "grade");
        }
    }

    public RunVerdict {
        parts = List.copyOf(parts);
        raised = List.copyOf(raised);
    }

    /**
     * The gravest of all; good only if the climb and the level under demand were judged and all
     * that was judged is good.
     */
    public Mark mark() {
        Mark gravest = Mark.GOOD;
        for (Part part : parts) {
            boolean needed = part.aspect() == Aspect.RISE || part.aspect() == Aspect.LOADED;
            if (part.mark() != Mark.NOT_JUDGED || needed) {
                gravest = graver(gravest, part.mark());
            }
        }
        for (Raised alarm : raised) {
            gravest = graver(gravest, Mark.of(alarm.grade()));
        }
        return gravest;
    }

    private static Mark graver(Mark one, Mark other) {
        return one.compareTo(other) >= 0 ? one : other;
    }
}
