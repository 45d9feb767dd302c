package leat.service;

import java.util.List;
import java.util.Optional;
import leat.acquire.SourceHealth;
import leat.deliver.CourierHealth;
import leat.instruct.ReceptionHealth;

/**
 * How the daemon goes.
 *
 * @param inputs inputs fed since the start
 * @param lost inputs that came faster than they could be taken
 * @param faults steps of the engine that failed with a bug
 * @param storeTrouble what is wrong with the store now; empty when nothing is
 * @param sources each source
 * @param couriers each route
 * @param instructions what came by MQTT; empty where nobody may send any
 */
public record DaemonHealth(
        long inputs,
        long lost,
        long faults,
        String storeTrouble,
        List<SourceHealth> sources,
        List<CourierHealth> couriers,
        Optional<ReceptionHealth> instructions) {

    public DaemonHealth {
        sources = List.copyOf(sources);
        couriers = List.copyOf(couriers);
    }
}
