package leat.page;

import static java.util.Objects.requireNonNull;

import com.sun.net.httpserver.HttpHandler;
import com.sun.net.httpserver.HttpServer;
import com.sun.net.httpserver.HttpsConfigurator;
import com.sun.net.httpserver.HttpsServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.Duration;
import java.util.Optional;
import leat.config.PageSettings;
import leat.tls.Identity;
import leat.work.Trouble;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The socket that the page is served on. Where the port is taken it is tried again: leat watches on
 * meanwhile. {@link #look} is called by one thread, {@link #close} by any.
 */
final class Door implements AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(Door.class);
    private static final Duration AGAIN = Duration.ofSeconds(10);
    private static final int BACKLOG = 256;

    private final PageSettings settings;
    private final Turns turns;
    private final HttpHandler desk;
    private final Trouble trouble = new Trouble();
    private Optional<HttpServer> server = Optional.empty();
    private long tryAtNanos = System.nanoTime();
    private boolean closed;

    Door(PageSettings settings, Turns turns, HttpHandler desk) {
        this.settings = requireNonNull(settings, "settings");
        this.turns = requireNonNull(turns, "turns");
        this.desk = requireNonNull(desk, "desk");
    }

    /** Opens it where it is not open and a try is due. */
    synchronized void look() {
        if (closed || server.isPresent() || System.nanoTime() - tryAtNanos < 0) {
            return;
        }
        ServerBounds.declare();
        try {
            HttpServer made = made();
            made.setExecutor(turns);
            made.createContext("/", desk);
            made.start();
            server = Optional.of(made);
            trouble.over();
            LOG.info("page: {}", url(made.getAddress().getPort()));
        } catch (IOException e) {
            tryAtNanos = System.nanoTime() + AGAIN.toNanos();
            if (trouble.isNews(e.getMessage())) {
                LOG.error(
                        "page: cannot listen on {}: {}. Is the port taken, or the address not this"
                                + " computer's? Trying again every {} s",
                        settings.address(),
                        e.getMessage(),
                        AGAIN.toSeconds());
            }
        }
    }

    private HttpServer made() throws IOException {
        InetSocketAddress at =
                new InetSocketAddress(InetAddress.getByName(settings.host()), settings.port());
        if (settings.tls().isEmpty()) {
            return HttpServer.create(at, BACKLOG);
        }
        HttpsServer secure = HttpsServer.create(at, BACKLOG);
        secure.setHttpsConfigurator(
                new HttpsConfigurator(settings.tls().map(Identity::context).orElseThrow()));
        return secure;
    }

    private String url(int port) {
        String scheme = settings.tls().isPresent() ? "https://" : "http://";
        return scheme + settings.address().replaceFirst(":[0-9]+$", ":" + port) + "/";
    }

    /** The port that it is open on; empty while it is not. */
    synchronized Optional<Integer> port() {
        return server.map(open -> open.getAddress().getPort());
    }

    @Override
    public synchronized void close() {
        closed = true;
        server.ifPresent(open -> open.stop(0));
        server = Optional.empty();
    }
}
