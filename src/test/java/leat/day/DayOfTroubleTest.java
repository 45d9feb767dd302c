package leat.day;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import leat.Gear;
import leat.MayLeave;
import leat.config.Site;
import leat.interop.Peer;
import leat.service.SpedUpDaemon;
import leat.tls.Certificates;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A day of the whole daemon in a minute or so: alarms come and go on two machines, five routes
 * carry them, and one after the other each of the four other sides is killed, hangs, dawdles,
 * refuses, is full or shows a wrong certificate, while the rest are well. Event time and the pauses
 * of couriers are sped up; sockets, time-outs and delays are real.
 */
@Tag(Gear.THOROUGH)
@Timeout(400)
@MayLeave(
        sockets = 2,
        because =
                "a channel of Java 17's HTTP client or server, cut off in mid-call, is not closed")
class DayOfTroubleTest {

    private static final List<String> ROUTES = List.of("broker", "mail", "hook", "siren", "log");
    private static final Map<String, String> ENDPOINTS =
            Map.of("broker", "ssl:", "hook", "https:", "mail", "mail:");
    private static final Pattern REFUSED_FOR_GOOD = Pattern.compile("550 5\\.1\\.1|answers 422");
    private static final Instant MORNING = Instant.parse("2026-01-05T06:00:00Z");

    private final long seed = Gear.seed();

    @TempDir Path folder;

    @Test
    void every_message_arrives_whatever_ails_the_other_side_of_its_route() throws Exception {
        System.out.printf("day of trouble: seed %d (-Dleat.seed=%d repeats it)%n", seed, seed);
        Peer.require("mosquitto");
        Peer.require("sqlite3");
        Path database = Boatyard.database(folder);
        Certificates certificates = new Certificates(folder.resolve("pki"));
        Shown shown = Shown.by(certificates);
        try (Arrivals arrivals = new Arrivals(database);
                LogPart log = new LogPart(arrivals);
                BrokerPart broker = new BrokerPart(folder, certificates, shown, arrivals);
                MailPart mail = new MailPart(certificates, shown, arrivals);
                HookPart hook = new HookPart(certificates, shown, arrivals);
                SirenPart siren = new SirenPart(folder, database, arrivals)) {
            Site site = Boatyard.site(folder, broker, List.of(broker, mail, hook, siren, log));

            Result result = live(site, List.of(broker, mail, hook, siren), siren, arrivals);

            print(result);
            SoftAssertions softly = new SoftAssertions();
            messagesArrive(softly, result);
            troubleIsSaid(softly, result, log);
            softly.assertThat(hook.unsigned()).as("requests without a signature").isZero();
            softly.assertAll();
        }
    }

    private Result live(Site site, List<Part> parts, SirenPart siren, Arrivals arrivals)
            throws Exception {
        long morning = MORNING.getEpochSecond() * Water.SECOND;
        Map<String, Water> machines = new LinkedHashMap<>();
        for (int i = 0; i < Boatyard.MACHINES.size(); i++) {
            machines.put(Boatyard.MACHINES.get(i), Water.ofADay(seed + i, morning, 5 + 12 * i));
        }
        try (Books books = new Books(site.store().file());
                Commits commits = new Commits(site.store().file())) {
            List<Bout> bouts;
            try (SpedUpDaemon leat = new SpedUpDaemon(site, morning, seed)) {
                leat.start();
                commits.start();
                Day day = new Day(leat, machines);
                bouts = new Plan(leat, day, commits, books).carryOut(parts);
                assertThat(leat.faults()).as("bugs in the engine").isZero();
                machines.keySet().forEach(machine -> assertThat(leat.dropped(machine)).isZero());
            }
            siren.report();
            return new Result(books.after(0), commits.all(), bouts, arrivals.all());
        }
    }

    /**
     * None is lost, early or changed, and none is given up but for good reason and with a notice.
     */
    private static void messagesArrive(SoftAssertions softly, Result result) {
        softly.assertThat(result.lost()).as("lost").isEmpty();
        softly.assertThat(result.missingAt(BrokerPart.STATES, "broker"))
                .as("no state at the broker")
                .isEmpty();
        softly.assertThat(result.givenUp())
                .as("given up")
                .isNotEmpty()
                .allMatch(row -> REFUSED_FOR_GOOD.matcher(row.because()).find());
        softly.assertThat(result.givenUpInSilence()).as("given up in silence").isEmpty();
        softly.assertThat(result.beforeTheirCommit()).as("told before the commit").isEmpty();
        softly.assertThat(result.notWhatWasCommitted()).as("not what was committed").isEmpty();
        for (String route : ROUTES) {
            softly.assertThat(result.owed(route))
                    .as(route)
                    .isBetween(5L * Water.HOURS, 17L * Water.HOURS);
        }
        for (Bout bout : result.bouts()) {
            if (bout.trouble() == Ailment.HUNG) {
                softly.assertThat(result.repeats(bout.route()))
                        .as("repeats, without which nothing is shown of them: " + bout.route())
                        .isPositive();
            }
        }
    }

    /** In the route's own words, and a wrong certificate in the log too; nothing passes by it. */
    private static void troubleIsSaid(SoftAssertions softly, Result result, LogPart log) {
        softly.assertThat(result.bouts())
                .extracting(Bout::trouble)
                .as("troubles of the day")
                .contains(Ailment.values());
        for (Bout bout : result.bouts()) {
            softly.assertThat(bout.unsaid()).as("unsaid by " + bout.hour()).isEmpty();
            if (bout.trouble().isComplete()) {
                softly.assertThat(result.countedInSpiteOf(bout))
                        .as("counted as delivered in spite of " + bout.hour())
                        .isEmpty();
            }
            if (bout.trouble() == Ailment.CERTIFICATE || bout.trouble() == Ailment.KILLED) {
                softly.assertThat(result.cameInSpiteOf(bout))
                        .as("came in spite of " + bout.hour())
                        .isEmpty();
            }
        }
        for (Bout bout : result.bouts()) {
            if (bout.trouble() != Ailment.CERTIFICATE) {
                continue;
            }
            String endpoint = ENDPOINTS.get(bout.route());
            for (String words : List.of("has expired", "another host name")) {
                softly.assertThat(log.said())
                        .as("the log of " + endpoint + " " + words)
                        .anyMatch(line -> line.contains(endpoint) && line.contains(words));
            }
        }
    }

    private static void print(Result result) {
        System.out.println(Result.head());
        result.bouts().forEach(bout -> System.out.println(result.line(bout)));
        for (String route : ROUTES) {
            System.out.printf(
                    "%-7s all well             %s%n",
                    route, result.delaysWhileWell(route, Hour.CALM::equals));
            System.out.printf(
                    "%-7s others in trouble    %s%n",
                    route, result.delaysWhileWell(route, hour -> hour.isTroubleOfOthers(route)));
        }
    }
}
