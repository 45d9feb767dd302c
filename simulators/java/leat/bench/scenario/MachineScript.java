package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import leat.bench.line.LineSettings;

/**
 * What happens to one machine.
 *
 * @param machine its name
 * @param line how it is set up while healthy
 * @param timeline events in order of their time; those of one time keep the order they were given
 */
public record MachineScript(String machine, LineSettings line, List<Event> timeline) {

    public MachineScript {
        requireNonNull(machine, "machine");
        requireNonNull(line, "line");
        timeline = timeline.stream().sorted(Comparator.comparing(Event::at)).toList();
    }
}
