package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import leat.tls.Identity;

/**
 * The status page.
 *
 * @param host address of this computer that it listens on, or {@code localhost}; an IPv6 address
 *     without brackets
 * @param port 0 only in tests: any that is free
 * @param token what whoever looks has to show; empty for nobody is asked, and where no secret was
 *     fetched
 * @param tls who leat is to a browser; empty for plain HTTP, and where no file was read
 */
public record PageSettings(String host, int port, Optional<Secret> token, Optional<Identity> tls) {

    public PageSettings {
        requireNonNull(host, "host");
        requireNonNull(token, "token");
        requireNonNull(tls, "tls");
        if (port < 0 || port > 65_535) {
            throw new IllegalArgumentException("no port: " + port);
        }
    }

    /** Whether only this computer can reach it. */
    public boolean isLoopback() {
        return Texts.isLoopback(host);
    }

    /** As it stands in a web address. */
    public String address() {
        return (host.contains(":") ? "[" + host + "]" : host) + ":" + port;
    }
}
