package leat.config;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.signal.Channel;
import leat.signal.Contact;
import leat.signal.PressureUnit;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SiteFileTest {

    @TempDir Path folder;

    private Site load(String text) throws IOException {
        Path file = Files.writeString(folder.resolve("site.yaml"), text);
        LoadedSite loaded = SiteFile.load(file, GoodSite::environment);
        assertThat(loaded.problems()).isEmpty();
        return loaded.site().orElseThrow();
    }

    @Test
    void the_site_and_its_store_are_read() throws IOException {
        Site site = load(GoodSite.TEXT);

        assertThat(site.name()).isEqualTo("Boatyard");
        assertThat(site.zone()).isEqualTo(ZoneId.of("Europe/London"));
        assertThat(site.shownIn()).isEqualTo(PressureUnit.BAR);
        assertThat(site.store())
                .isEqualTo(new StoreSettings(folder.resolve("data"), Duration.ofDays(30)));
        assertThat(site.text()).isEqualTo(GoodSite.TEXT);
    }

    @Test
    void both_kinds_of_connection_are_read_in_the_order_of_the_file() throws IOException {
        Site site = load(GoodSite.TEXT);

        assertThat(site.connections()).hasSize(2);
        assertThat(site.connections().get(0))
                .isEqualTo(
                        new ConnectionSettings.ModbusTcp(
                                "cabinet-1",
                                "127.0.0.1",
                                1502,
                                Duration.ofMillis(50),
                                Duration.ofMillis(500),
                                Duration.ofSeconds(30)));
        ConnectionSettings.Mqtt broker = (ConnectionSettings.Mqtt) site.connections().get(1);
        assertThat(broker.url()).isEqualTo("tcp://127.0.0.1:1883");
        assertThat(broker.clientId()).isEqualTo("leat-boatyard");
        assertThat(broker.user()).contains("leat");
        assertThat(broker.password().map(Secret::reveal)).contains("s3cret");
        assertThat(broker.statusTopic()).contains("leat/boatyard/status");
        assertThat(broker.keepAlive()).isEqualTo(Duration.ofSeconds(15));
        assertThat(broker.reconnectMax()).isEqualTo(Duration.ofMinutes(1));
    }

    @Test
    void a_loop_current_is_read_through_two_lines_and_believed_a_tenth_beyond_them()
            throws IOException {
        Site site = load(GoodSite.TEXT);

        ChannelSettings inlet = site.machines().get(0).byChannel().get(Channel.INLET);
        assertThat(inlet.connection()).isEqualTo("cabinet-1");
        assertThat(inlet.point())
                .isEqualTo(
                        new Point.Register(
                                1,
                                Point.Table.INPUT_REGISTER,
                                0,
                                Point.NumberType.UINT16,
                                Point.WordOrder.ABCD));
        assertThat(inlet.conversion())
                .isEqualTo(
                        new Transducer(
                                Optional.of(new TwoPoint(0, 0, 4095, 20.5)),
                                new TwoPoint(4, 0, 20, 200),
                                -20,
                                220));
    }

    @Test
    void a_number_that_is_a_pressure_already_needs_its_unit_only() throws IOException {
        Site site = load(GoodSite.TEXT);

        ChannelSettings boosted = site.machines().get(0).byChannel().get(Channel.BOOSTED);
        assertThat(boosted.point())
                .isEqualTo(
                        new Point.Topic(
                                "yard/jet-1/boosted",
                                1,
                                Optional.of("/psi"),
                                Optional.of("/t"),
                                Point.TimeFormat.ISO,
                                Duration.ofSeconds(5)));
        assertThat(boosted.conversion())
                .isEqualTo(new Transducer(Optional.empty(), TwoPoint.IDENTITY, -15, 500));
    }

    @Test
    void a_raw_number_is_scaled_in_bar_and_keeps_the_range_that_was_written() throws IOException {
        Site site = load(GoodSite.TEXT);

        ChannelSettings filtered = site.machines().get(0).byChannel().get(Channel.FILTERED);
        Transducer transducer = (Transducer) filtered.conversion();
        assertThat(transducer.loop()).isEmpty();
        assertThat(transducer.pressure().at(5000))
                .isCloseTo(PressureUnit.BAR.toPsi(8), within(1e-8));
        assertThat(transducer.lowPsi()).isEqualTo(-15);
        assertThat(transducer.highPsi()).isEqualTo(300);
        assertThat(((Point.Register) filtered.point()).order()).isEqualTo(Point.WordOrder.CDAB);
        assertThat(((Point.Register) filtered.point()).unitId()).isEqualTo(1);
    }

    @Test
    void contacts_read_plain_yes_and_no() throws IOException {
        Site site = load(GoodSite.TEXT);

        Map<Channel, ChannelSettings> channels = site.machines().get(0).byChannel();
        assertThat(channels.get(Channel.RUNNING).conversion()).isEqualTo(new Contact(false));
        assertThat(channels.get(Channel.VALVE).conversion()).isEqualTo(new Contact(true));
        assertThat(channels.get(Channel.RUNNING).point())
                .isEqualTo(
                        new Point.Register(
                                1,
                                Point.Table.COIL,
                                3,
                                Point.NumberType.UINT16,
                                Point.WordOrder.ABCD));
    }

    @Test
    void a_machine_puts_its_own_limits_over_those_of_the_site() throws IOException {
        Site site = load(GoodSite.TEXT);

        Map<Limit, Double> changed = site.machines().get(0).limits().changed();
        assertThat(changed)
                .containsOnlyKeys(Limit.LEVEL_TOLERANCE, Limit.REST_FALLING, Limit.RISE_WARNING);
        assertThat(changed.get(Limit.LEVEL_TOLERANCE))
                .isCloseTo(PressureUnit.BAR.toPsi(0.5), within(1e-8));
        assertThat(changed.get(Limit.RISE_WARNING)).isEqualTo(5.0);
    }

    @Test
    void routes_are_read() throws IOException {
        Site site = load(GoodSite.TEXT);

        assertThat(site.routes())
                .isEqualTo(
                        List.of(
                                new RouteSettings.Log("log", RouteScope.from(Grade.ADVISORY)),
                                new RouteSettings.Mqtt(
                                        "yard",
                                        RouteScope.from(Grade.WARNING),
                                        "broker",
                                        "leat/boatyard")));
    }

    @Test
    void the_shortest_file_is_filled_with_the_defaults() throws IOException {
        Site site =
                load(
                        """
                        site: { name: Boatyard }
                        connections: { c: { modbus_tcp: { host: 127.0.0.1 } } }
                        machines:
                          jet-1:
                            channels:
                              inlet: { from: c, register: { table: input_register, address: 0, type: int16 }, unit: psi }
                              boosted: { from: c, register: { table: input_register, address: 1, type: int16 }, unit: psi }
                        limits:
                        tell: { log: { by: { log: } } }
                        """);

        assertThat(site.zone()).isEqualTo(ZoneId.of("UTC"));
        assertThat(site.shownIn()).isEqualTo(PressureUnit.PSI);
        assertThat(site.store().keepSamples()).isEqualTo(Duration.ofDays(365));
        assertThat(site.store().file()).isEqualTo(folder.resolve("data").resolve("leat.db"));
        assertThat(site.connections().get(0))
                .isEqualTo(
                        new ConnectionSettings.ModbusTcp(
                                "c",
                                "127.0.0.1",
                                502,
                                Duration.ofMillis(50),
                                Duration.ofMillis(500),
                                Duration.ofSeconds(30)));
        assertThat(site.machines().get(0).limits().changed()).isEmpty();
        assertThat(site.routes().get(0).scope().atLeast()).isEqualTo(Grade.ADVISORY);
    }

    @Test
    void an_anchor_repeats_a_part_that_two_channels_share() throws IOException {
        String text =
                GoodSite.with(
                                "loop: [ { raw: 0, current: 0 mA }, { raw: 4095, current: 20.5 mA } ]",
                                "loop: &card [ { raw: 0, current: 0 mA }, { raw: 4095, current: 20.5 mA } ]")
                        .replace(
                                "scale: [ { at: 0, reads: 0 bar }, { at: 10000, reads: 16 bar } ]",
                                "loop: *card\n        scale: [ { at: 4 mA, reads: 0 bar }, { at: 20 mA, reads: 16 bar } ]");

        Site site = load(text);

        Map<Channel, ChannelSettings> channels = site.machines().get(0).byChannel();
        assertThat(((Transducer) channels.get(Channel.FILTERED).conversion()).loop())
                .isEqualTo(((Transducer) channels.get(Channel.INLET).conversion()).loop());
    }

    /** SHA-256 of the empty string and of "abc": FIPS 180-4, examples of NIST. */
    @Test
    void the_hash_is_sha_256_of_the_text() throws IOException {
        Site site = load(GoodSite.TEXT);

        assertThat(Sha256.of("abc"))
                .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assertThat(site.hash()).isEqualTo(Sha256.of(GoodSite.TEXT)).hasSize(64);
    }

    @Test
    void an_archived_text_gives_machines_and_limits_without_any_secret() {
        LoadedSite archived = SiteFile.archived(GoodSite.TEXT);

        Site site = archived.site().orElseThrow();
        assertThat(site.machines().get(0).limits().get(Limit.RISE_WARNING)).isEqualTo(5.0);
        assertThat(site.machines().get(0).channels()).hasSize(5);
        assertThat(((ConnectionSettings.Mqtt) site.connections().get(1)).password()).isEmpty();
    }

    @Test
    void a_file_saved_with_a_byte_order_mark_and_crlf_reads_the_same() throws IOException {
        Path file =
                Files.writeString(
                        folder.resolve("dos.yaml"), "\uFEFF" + GoodSite.TEXT.replace("\n", "\r\n"));

        LoadedSite loaded = SiteFile.load(file, GoodSite::environment);

        assertThat(loaded.problems()).isEmpty();
        assertThat(loaded.site().orElseThrow().machines())
                .hasSize(1)
                .extracting(MachineSettings::channels)
                .isEqualTo(
                        GoodSite.site(GoodSite.TEXT).machines().stream()
                                .map(MachineSettings::channels)
                                .toList());
    }
}
