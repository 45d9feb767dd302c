package leat.system;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import leat.interop.Mosquitto;

/**
 * Who is told: a mosquitto_sub behind a broker (route {@code hall}) and a receiver of webhooks
 * (route {@code desk}). Confined to the test's thread.
 */
final class Receivers implements AutoCloseable {

    static final List<String> ROUTES = List.of("hall", "desk");

    private final Mosquitto broker;
    private final Wire wire;
    private final HookDesk desk;

    Receivers(Path folder, Ledger ledger) throws IOException {
        broker = new Mosquitto(folder);
        broker.start();
        wire = Wire.listen(broker);
        desk = new HookDesk(id -> ledger.holds("desk", id));
    }

    Mosquitto broker() {
        return broker;
    }

    /** Where webhooks are taken. */
    URI webhook() {
        return desk.url();
    }

    /** Grows whenever the subscriber hears a message. */
    long wireSize() {
        return wire.size();
    }

    /** Grows whenever a webhook comes. */
    long hooks() {
        return desk.requests();
    }

    /** From now on the receiver of webhooks is away, or there. */
    void sendDeskAway(boolean away) {
        desk.beAway(away);
    }

    /** Waits until everything that is on its way to a receiver has come. */
    void settle() throws IOException, InterruptedException {
        wire.settle();
    }

    /** Ids of what was told to the end on a route, in order, repeats included. */
    List<String> told(String route) {
        return route.equals("hall") ? wire.events() : desk.heard();
    }

    /** Ids of what was told on a route, if only in part. */
    Set<String> heard(String route) {
        return route.equals("hall") ? wire.told() : new HashSet<>(desk.heard());
    }

    /** Ids of what was told at the broker as a state and not as an event. */
    Set<String> halfTold() {
        return wire.halfTold();
    }

    /** Ids of what the store did not hold at the moment at which it was told. */
    List<String> early() {
        return desk.early();
    }

    @Override
    public void close() {
        desk.close();
        broker.close();
    }
}
