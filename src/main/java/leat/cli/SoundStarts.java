package leat.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import leat.diagnose.Observation;
import leat.diagnose.Observations;
import leat.diagnose.Reference;
import leat.replay.Replayed;
import leat.words.Saying;

/**
 * Starts of a machine from recordings of it when it was sound.
 *
 * @param all of all recordings, in the order in which they were given; never empty
 */
record SoundStarts(List<Observation> all) {

    SoundStarts {
        all = List.copyOf(all);
    }

    /**
     * @param replay judges the recording in a file
     */
    static SoundStarts of(List<Path> files, Function<Path, Replayed> replay) {
        List<Observation> all = new ArrayList<>();
        for (Path file : files) {
            List<Observation> judged = replay.apply(file).judged();
            if (judged.isEmpty()) {
                throw new CommandFailure.Expected(
                        ExitCode.WRONG, "cli.sound.none", file.toString());
            }
            all.addAll(judged);
        }
        return new SoundStarts(all);
    }

    Reference reference() {
        return Reference.of(all);
    }

    /** What a person should know of how much they say. */
    Saying note() {
        return Saying.of(
                all.size() < Observations.MOST ? "cli.sound.few" : "cli.sound.enough",
                all.size(),
                Integer.toString(Observations.MOST));
    }
}
