package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import leat.bench.line.LineSettings;
import leat.bench.sensor.Transducers;

/**
 * What happens to one machine.
 *
 * @param machine its name
 * @param line how it is set up while healthy
 * @param transducers how it is seen
 * @param starts how it is used day by day, beside its timeline; absent where that says it all
 * @param timeline events in order of their time; those of one time keep the order they were given
 */
public record MachineScript(
        String machine,
        LineSettings line,
        Transducers transducers,
        Optional<Starts> starts,
        List<Event> timeline) {

    public MachineScript {
        requireNonNull(machine, "machine");
        requireNonNull(line, "line");
        requireNonNull(transducers, "transducers");
        requireNonNull(starts, "starts");
        timeline = timeline.stream().sorted(Comparator.comparing(Event::at)).toList();
    }

    /** Whether its jet is ever turned off while it runs. */
    public boolean pauses() {
        return timeline.stream().anyMatch(event -> event.action() instanceof Event.Pause);
    }

    /** One with the usual transducers that does what its timeline says. */
    public MachineScript(String machine, LineSettings line, List<Event> timeline) {
        this(machine, line, Transducers.USUAL, Optional.empty(), timeline);
    }
}
