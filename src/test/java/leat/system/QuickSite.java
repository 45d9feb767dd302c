package leat.system;

/** Limits as short as the settings allow, so that an alarm comes and goes within seconds. */
final class QuickSite {

    static final String LIMITS =
            """
            limits:
              ratio: { arm: 1 s, warning_delay: 1 s, critical_delay: 1 s, off_delay: 1 s }
              level: { arm: 1 s, delay: 1 s, high_delay: 1 s, off_delay: 1 s }
              rise: { advisory: 1 s, warning: 2 s, critical: 3 s, relaxed_critical: 5 s }
              rest: { arm: 1 s, delay: 1 s, off_delay: 1 s }
              inlet: { arm: 0 s, delay: 1 s, critical_delay: 0 s, off_delay: 1 s }
              signal: { missing: 2 s, stuck: 1 h, off_delay: 1 s }
            """;

    private QuickSite() {}

    /** With time to find the level of a weak booster before its climb is judged. */
    static String patient(String yaml) {
        return yaml.replace(
                "advisory: 1 s, warning: 2 s, critical: 3 s, relaxed_critical: 5 s",
                "advisory: 6 s, warning: 8 s, critical: 10 s, relaxed_critical: 12 s");
    }

    /**
     * The site of one machine at a Modbus device, told to the log.
     *
     * @param machineLimits lines of its own limits, indented by four; may be empty
     */
    static String yaml(int port, String machineLimits) {
        return yaml(port, machineLimits, "log: { by: { log: { } } }");
    }

    /**
     * The same, told otherwise.
     *
     * @param route one route with its name
     */
    static String yaml(int port, String machineLimits, String route) {
        return """
                site: { name: Boatyard }
                store: { folder: ./data }
                connections:
                  cabinet: { modbus_tcp: { host: 127.0.0.1, port: %d } }
                machines:
                  jet-1:
                %s    channels:
                      inlet:
                        from: cabinet
                        register: { table: input_register, address: 10, type: float32 }
                        unit: psi
                      boosted:
                        from: cabinet
                        register: { table: input_register, address: 12, type: float32 }
                        unit: psi
                      running:
                        from: cabinet
                        register: { table: discrete_input, address: 0 }
                %stell:
                  %s
                """
                .formatted(port, machineLimits, LIMITS.replace("missing: 2", "missing: 30"), route);
    }
}
