package leat.acquire.mqtt;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.acquire.Intake;
import leat.acquire.LoopCurrents;
import leat.acquire.Source;
import leat.acquire.SourceContract;
import leat.config.ChannelSettings;
import leat.config.ConnectionSettings;
import leat.config.MachineSettings;
import leat.config.Point;
import leat.interop.Mosquitto;
import leat.mqtt.MqttLink;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.tls.Trust;
import org.junit.jupiter.api.io.TempDir;

/** The contract over MQTT: the broker is mosquitto, the sensor one mosquitto_pub. */
class MqttSourceContractTest extends SourceContract {

    private static final String TOPIC = "jet-1/feed";
    private static final Duration SILENT_AFTER = Duration.ofSeconds(2);

    @TempDir private Path folder;

    private Mosquitto broker;
    private MqttLink link;

    @Override
    protected int startDevice(LoopCurrents loops) throws Exception {
        broker = new Mosquitto(folder);
        broker.start();
        broker.startSensor(
                TOPIC,
                () ->
                        String.format(
                                Locale.ROOT,
                                "{\"in\":%d,\"out\":%d}",
                                loops.inlet(),
                                loops.boosted()));
        return broker.port();
    }

    @Override
    protected Source open(int port, Intake into) {
        link = new MqttLink(settings(port), "Boatyard");
        return new MqttSource(link, List.of(jet()), into, System::nanoTime);
    }

    private static MachineSettings jet() {
        return new MachineSettings(
                "jet-1",
                List.of(channel(Channel.INLET, "/in"), channel(Channel.BOOSTED, "/out")),
                Limits.DEFAULTS);
    }

    private static ChannelSettings channel(Channel channel, String pointer) {
        Point.Topic topic =
                new Point.Topic(
                        TOPIC,
                        1,
                        Optional.of(pointer),
                        Optional.empty(),
                        Point.TimeFormat.ISO,
                        SILENT_AFTER);
        return new ChannelSettings(channel, "hall", topic, LOOP);
    }

    private static ConnectionSettings.Mqtt settings(int port) {
        return new ConnectionSettings.Mqtt(
                "hall",
                "tcp://127.0.0.1:" + port,
                "leat-test",
                Optional.empty(),
                Optional.empty(),
                Trust.OF_THE_RUNTIME,
                Optional.empty(),
                Duration.ofSeconds(15),
                Duration.ofMillis(300));
    }

    @Override
    protected void startTheRest() {
        link.start();
    }

    @Override
    protected String threadName() {
        return "leat-silence-hall";
    }

    @Override
    protected void closeTheRest() {
        link.close();
        broker.close();
    }
}
