package leat.page;

import java.util.List;
import java.util.regex.Pattern;
import leat.config.PageSettings;

/**
 * By which names leat answers. On loopback only those of this computer: a web site elsewhere can
 * have its own name lead a browser here, but the browser then says that name. Where others can
 * reach it a token is asked for, which such a site does not have, and any name will do. Immutable.
 */
final class OwnNames {

    private static final Pattern LOOPBACK =
            Pattern.compile(
                    "(localhost|127(\\.[0-9]{1,3}){3}|\\[::1\\])(:[0-9]{1,5})?",
                    Pattern.CASE_INSENSITIVE);

    private final boolean isLoopback;

    OwnNames(PageSettings settings) {
        isLoopback = settings.isLoopback();
    }

    /**
     * @param hosts the Host headers of a request; one is due
     */
    boolean include(List<String> hosts) {
        return hosts.size() == 1 && (!isLoopback || LOOPBACK.matcher(hosts.get(0)).matches());
    }
}
