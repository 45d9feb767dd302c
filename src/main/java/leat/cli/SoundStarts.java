package leat.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import leat.diagnose.Observation;
import leat.diagnose.Observations;
import leat.diagnose.Reference;
import leat.replay.Replayed;

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
                        ExitCode.WRONG,
                        "--baseline "
                                + file
                                + ": no start could be measured in it. Give a recording that begins"
                                + " at rest and goes on for 20 s after a start, with sound gauges.");
            }
            all.addAll(judged);
        }
        return new SoundStarts(all);
    }

    Reference reference() {
        return Reference.of(all);
    }

    /** What a person should know of how much they say. */
    String note() {
        String with =
                "Causes: compared with "
                        + (all.size() == 1 ? "1 sound start" : all.size() + " sound starts");
        return all.size() < Observations.MOST
                ? with
                        + ". With so few what is usual is less sure; from "
                        + Observations.MOST
                        + " on it is as sure as it gets."
                : with + ".";
    }
}
