package leat.page;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What the JDK's server allows whoever calls it. It reads these once, from system properties, when
 * its first server is made; what somebody has set on the command line stays. Where they come too
 * late, {@link Turns} still cuts off who is slow. The bound on the size of a request's head needs a
 * Java 17.0.13 or newer.
 */
final class ServerBounds {

    /** Over this one a connection is closed as soon as it is made. */
    static final int CONNECTIONS = 1_200;

    /** Bytes of request line and headers together; a browser sends about 1,000. */
    static final int HEAD_BYTES = 16_384;

    private static final Map<String, String> PROPERTIES = properties();

    private ServerBounds() {}

    private static Map<String, String> properties() {
        Map<String, String> properties = new LinkedHashMap<>();
        properties.put("jdk.httpserver.maxConnections", Integer.toString(CONNECTIONS));
        properties.put("sun.net.httpserver.maxReqHeaderSize", Integer.toString(HEAD_BYTES));
        properties.put("sun.net.httpserver.maxReqHeaders", "64");
        properties.put("sun.net.httpserver.maxReqTime", "10"); // seconds, from the connection on
        properties.put("sun.net.httpserver.maxIdleConnections", "16");
        properties.put("sun.net.httpserver.idleInterval", "5"); // seconds
        properties.put("sun.net.httpserver.drainAmount", "4096"); // bytes
        properties.put("sun.net.httpserver.nodelay", "true");
        return properties;
    }

    /** To be called before the first server is made. */
    static void declare() {
        PROPERTIES.forEach(
                (name, value) -> {
                    if (System.getProperty(name) == null) {
                        System.setProperty(name, value);
                    }
                });
    }
}
