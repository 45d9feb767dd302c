package leat.day;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import leat.tls.Certificates;

/** The certificates that a server can show; made once, for that takes seconds. */
record Shown(Certificates.Server good, Certificates.Server expired, Certificates.Server elsewhere) {

    private interface Making {
        Certificates.Server make() throws Exception;
    }

    static Shown by(Certificates authority) {
        CompletableFuture<Certificates.Server> good = start(authority::good);
        CompletableFuture<Certificates.Server> expired = start(authority::expired);
        CompletableFuture<Certificates.Server> elsewhere = start(authority::elsewhere);
        return new Shown(good.join(), expired.join(), elsewhere.join());
    }

    private static CompletableFuture<Certificates.Server> start(Making making) {
        return CompletableFuture.supplyAsync(
                () -> {
                    try {
                        return making.make();
                    } catch (Exception e) {
                        throw new CompletionException(e);
                    }
                });
    }
}
