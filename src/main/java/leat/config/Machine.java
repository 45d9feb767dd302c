package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * One machine as far as it could be read, with the places where its channels stand.
 *
 * @param name its name
 * @param wired the channels that are well written
 * @param limits the site's limits with its own put over them
 */
record Machine(String name, List<Wired> wired, GivenLimits limits) {

    Machine {
        requireNonNull(name, "name");
        wired = List.copyOf(wired);
        requireNonNull(limits, "limits");
    }

    MachineSettings settings() {
        return new MachineSettings(
                name, wired.stream().map(Wired::settings).toList(), LimitsReader.limits(limits));
    }

    /**
     * One channel.
     *
     * @param settings what was read
     * @param at where it stands
     */
    record Wired(ChannelSettings settings, Cursor at) {
        Wired {
            requireNonNull(settings, "settings");
            requireNonNull(at, "at");
        }
    }
}
