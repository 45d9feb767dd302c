package leat.config;

import static java.util.Objects.requireNonNull;

/**
 * One route with the place where it stands.
 *
 * @param settings what was read
 * @param at where it stands
 */
record Route(RouteSettings settings, Cursor at) {
    Route {
        requireNonNull(settings, "settings");
        requireNonNull(at, "at");
    }
}
