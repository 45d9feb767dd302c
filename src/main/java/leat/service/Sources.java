package leat.service;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.acquire.modbus.ModbusSource;
import leat.acquire.modbus.PollingThread;
import leat.acquire.modbus.Tap;
import leat.acquire.mqtt.MqttSource;
import leat.config.ChannelSettings;
import leat.config.ConnectionSettings;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.mqtt.MqttLink;

/** Builds the source that each connection asks for. Stateless. */
final class Sources {

    private Sources() {}

    static List<Source> of(Site site, Map<String, MqttLink> links, Intake intake) {
        List<Source> sources = new ArrayList<>();
        PollingThread polling = new PollingThread();
        for (ConnectionSettings connection : site.connections()) {
            if (connection instanceof ConnectionSettings.ModbusTcp modbus) {
                List<Tap> taps = taps(site, modbus.name());
                if (!taps.isEmpty()) {
                    sources.add(new ModbusSource(modbus, taps, intake, polling));
                }
            } else {
                sources.add(
                        new MqttSource(
                                links.get(connection.name()),
                                site.machines(),
                                intake,
                                System::nanoTime));
            }
        }
        return List.copyOf(sources);
    }

    private static List<Tap> taps(Site site, String connection) {
        List<Tap> taps = new ArrayList<>();
        for (MachineSettings machine : site.machines()) {
            for (ChannelSettings channel : machine.channels()) {
                if (channel.connection().equals(connection)) {
                    taps.add(new Tap(machine.name(), channel));
                }
            }
        }
        return taps;
    }
}
