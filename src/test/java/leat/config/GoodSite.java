package leat.config;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A site that uses every key, for tests to read and to spoil. */
final class GoodSite {

    static final String TEXT =
            """
            site:
              name: Boatyard
              time_zone: Europe/London
              show_pressure_in: bar
            store:
              folder: ./data
              keep_samples: 30 d
            connections:
              cabinet-1:
                modbus_tcp: { host: 127.0.0.1, port: 1502, poll: 50 ms, timeout: 500 ms, reconnect_max: 30 s }
              broker:
                mqtt:
                  url: tcp://127.0.0.1:1883
                  client_id: leat-boatyard
                  user: leat
                  password: { env: LEAT_MQTT_PASSWORD }
                  status_topic: leat/boatyard/status
                  keep_alive: 15 s
                  reconnect_max: 1 min
            limits:
              level: { set: 100 psi, tolerance: 0.5 bar }
              rest: { bleeds: no, falling: 0.2 psi/s }
            machines:
              jet-1:
                channels:
                  inlet:
                    from: cabinet-1
                    register: { unit_id: 1, table: input_register, address: 0, type: uint16, word_order: ABCD }
                    loop: [ { raw: 0, current: 0 mA }, { raw: 4095, current: 20.5 mA } ]
                    scale: [ { at: 4 mA, reads: 0 psi }, { at: 20 mA, reads: 200 psi } ]
                  boosted:
                    from: broker
                    topic: { name: yard/jet-1/boosted, qos: 1, value: /psi, time: /t, time_format: iso, silent_after: 5 s }
                    unit: psi
                  filtered:
                    from: cabinet-1
                    register: { table: holding_register, address: 10, type: float32, word_order: CDAB }
                    scale: [ { at: 0, reads: 0 bar }, { at: 10000, reads: 16 bar } ]
                    range: [ -15 psi, 300 psi ]
                  running:
                    from: cabinet-1
                    register: { unit_id: 1, table: coil, address: 3 }
                    inverted: no
                  valve:
                    from: cabinet-1
                    register: { table: discrete_input, address: 0 }
                    inverted: true
                limits: { rise: { warning: 5 s }, rest: { bleeds: yes } }
            tell:
              log: { by: { log: { } }, about: { from: ADVISORY } }
              yard: { by: { mqtt: { connection: broker, topic_prefix: leat/boatyard } }, about: { from: WARNING } }
            """;

    private GoodSite() {}

    static Optional<String> environment(String name) {
        return name.equals("LEAT_MQTT_PASSWORD") ? Optional.of("s3cret") : Optional.empty();
    }

    /** The text with one thing replaced, which must stand in it. */
    static String with(String target, String replacement) {
        if (!TEXT.contains(target)) {
            throw new IllegalArgumentException("not in the text: " + target);
        }
        return TEXT.replaceFirst(Pattern.quote(target), Matcher.quoteReplacement(replacement));
    }

    static List<Problem> problems(String text) {
        return SiteFile.archived(text).problems();
    }

    static Site site(String text) {
        LoadedSite loaded = SiteFile.archived(text);
        return loaded.site().orElseThrow(() -> new AssertionError(loaded.problems().toString()));
    }

    /** Line from 1 at which something first stands. */
    static int lineOf(String text, String target) {
        return (int) text.substring(0, text.indexOf(target)).lines().count()
                + (text.charAt(text.indexOf(target) - 1) == '\n' ? 1 : 0);
    }
}
