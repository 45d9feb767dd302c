package leat.cli;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import leat.live.OutageNow;
import leat.report.Shown;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import leat.words.OutageWords;

/**
 * What channels fell silent together, for people who see one thing in it and type one number.
 *
 * @param outages those of which an alarm is not back to normal
 * @param shown how they are told
 */
record OutageChoice(List<OutageNow> outages, Shown shown) {

    OutageChoice {
        outages = List.copyOf(outages);
    }

    /** None where nobody knows which connection brings what. */
    static OutageChoice of(SiteChoice.Chosen chosen) {
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            return of(reader.standingAlarms(), chosen);
        }
    }

    static OutageChoice of(List<StoredAlarm> alarms, SiteChoice.Chosen chosen) {
        List<OutageNow> outages =
                alarms.isEmpty()
                        ? List.of()
                        : MachineChoice.known(chosen)
                                .map(site -> OutageNow.among(alarms, site))
                                .orElse(List.of());
        return new OutageChoice(outages, chosen.shown());
    }

    Optional<OutageNow> of(StoredAlarm alarm) {
        return outages.stream().filter(outage -> outage.has(alarm)).findFirst();
    }

    /** What is so of an outage in a few words. */
    String what(OutageNow outage) {
        return words().what(outage.connections(), outage.isWhole(), outage.channels().size());
    }

    /** The channels that leat does not see. */
    String blind(OutageNow outage) {
        return words().blind(outage.blind());
    }

    private OutageWords words() {
        return new OutageWords(shown.phrases());
    }

    /**
     * An alarm, and those of its outage that nobody has acknowledged.
     *
     * @param typed number or id
     */
    List<String> with(String typed) {
        return outages.stream()
                .filter(outage -> outage.alarms().stream().anyMatch(each -> isOf(each, typed)))
                .findFirst()
                .map(outage -> with(typed, outage))
                .orElse(List.of(typed));
    }

    private static List<String> with(String typed, OutageNow outage) {
        Stream<StoredAlarm> own = outage.alarms().stream().filter(each -> isOf(each, typed));
        Stream<StoredAlarm> others =
                outage.alarms().stream().filter(each -> each.own().needsAcknowledging());
        return Stream.concat(own, others)
                .map(each -> Long.toString(each.number()))
                .distinct()
                .toList();
    }

    private static boolean isOf(StoredAlarm alarm, String typed) {
        return alarm.change().alarmId().equals(typed)
                || Long.toString(alarm.number()).equals(typed);
    }
}
