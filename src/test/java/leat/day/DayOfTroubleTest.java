package leat.day;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.config.LoadedSite;
import leat.config.Site;
import leat.config.SiteFile;
import leat.deliver.WebhookReceiver;
import leat.interop.Peer;
import leat.service.SpedUpDaemon;
import leat.tls.Certificates;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A day of the whole daemon in about a minute: alarms come and go on two machines, five routes
 * carry them, and one after the other each of the four other sides is killed, hangs, dawdles,
 * refuses, is full or shows a wrong certificate, while the others are well. Event time and the
 * pauses of couriers are sped up; sockets, time-outs and delays are real.
 */
@Timeout(300)
class DayOfTroubleTest {

    private static final long MORNING = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z
    private static final Duration DAY = Duration.ofHours(24);
    private static final Duration WARM_UP = Duration.ofMinutes(20);
    private static final Duration TROUBLE = Duration.ofMinutes(42);
    private static final Duration CATCH_UP = Duration.ofSeconds(40);
    private static final Duration LONGEST_CATCH_UP_REAL = Duration.ofSeconds(20);

    /** Real time for an hour of the day in which all are well. */
    private static final Duration CALM_HOUR = Duration.ofMillis(1500);

    private final long seed = Long.getLong("leat.seed", System.nanoTime() % 1_000_000);
    private final List<String> complaintsMissed = new ArrayList<>();

    @TempDir Path folder;

    private Commits commits;
    private SpedUpDaemon leat;
    private Books books;
    private Day day;
    private long endOfDay;

    @Test
    void every_message_arrives_in_spite_of_all_and_no_trouble_delays_another_route()
            throws Exception {
        System.out.printf("day of trouble: seed %d (-Dleat.seed=%d repeats it)%n", seed, seed);
        long started = System.nanoTime();
        Peer.require("mosquitto");
        Path database = folder.resolve("data/leat.db");
        Certificates certificates = new Certificates(folder.resolve("pki"));
        Shown shown = Shown.by(certificates);
        System.out.printf("certificates %.1f s%n", (System.nanoTime() - started) / 1e9);
        long begun = System.nanoTime();
        try (Arrivals arrivals = new Arrivals(database);
                LogPart log = new LogPart(arrivals);
                BrokerPart broker = new BrokerPart(folder, certificates, shown, arrivals);
                MailPart mail = new MailPart(certificates, shown, arrivals);
                HookPart hook = new HookPart(certificates, shown, arrivals);
                SirenPart siren = new SirenPart(folder, database, arrivals)) {
            List<Part> parts = List.of(broker, mail, hook, siren);
            Site site = site(broker, List.of(broker, mail, hook, siren, log));
            Result result = live(site, parts, arrivals, siren);
            System.out.printf("%.1f s%n", (System.nanoTime() - begun) / 1e9);
            print(parts, result);
            check(parts, result, hook, log);
        }
    }

    private Result live(Site site, List<Part> parts, Arrivals arrivals, SirenPart siren)
            throws Exception {
        leat = new SpedUpDaemon(site, MORNING, seed);
        endOfDay = MORNING + DAY.toNanos() / 1_000;
        Map<String, Water> machines = new LinkedHashMap<>();
        machines.put("jet-1", water(1, 5));
        machines.put("jet-2", water(2, 17));
        day = new Day(leat, machines);
        books = new Books(site.store().file());
        commits = new Commits(books);
        leat.start();
        day.pass(WARM_UP, Duration.ofSeconds(3));
        for (Turn turn : turns(parts)) {
            suffer(turn);
        }
        restOfTheDay();
        assertThat(leat.dropped("jet-1") + leat.dropped("jet-2")).isZero();
        assertThat(leat.faults()).isZero();
        leat.close();
        commits.end();
        siren.report();
        Result result = new Result(books.after(0), commits.all(), arrivals.all());
        books.close();
        return result;
    }

    private Water water(int machine, int firstMinute) {
        long first = MORNING + firstMinute * 60 * Water.SECOND;
        return new Water(
                seed * 10 + machine, first, MORNING + (DAY.toSeconds() - 1800) * Water.SECOND);
    }

    private record Turn(Part part, Spell spell) {}

    /** Each part in turn, each with its next trouble. */
    private static List<Turn> turns(List<Part> parts) {
        List<Turn> turns = new ArrayList<>();
        for (int i = 0; turns.size() < parts.stream().mapToInt(p -> p.spells().size()).sum(); i++) {
            for (Part part : parts) {
                if (i < part.spells().size()) {
                    turns.add(new Turn(part, part.spells().get(i)));
                }
            }
        }
        return turns;
    }

    private void suffer(Turn turn) throws Exception {
        Part part = turn.part();
        Spell spell = turn.spell();
        Trouble trouble = spell.trouble();
        commits.during(Hour.of(part.route(), trouble));
        long t0 = System.nanoTime();
        part.begin(trouble);
        pass(spell.atLeast());
        listen(part, trouble, spell.firstWords());
        part.turn(trouble);
        pass(spell.atLeast());
        listen(part, trouble, spell.secondWords());
        long t1 = System.nanoTime();
        part.end(trouble);
        catchUp(part);
        System.out.printf(
                "%s %s %.1f s, after it %.1f s, lag %.2f h%n",
                part.route(),
                trouble,
                (t1 - t0) / 1e9,
                (System.nanoTime() - t1) / 1e9,
                (leat.nowMicros() - MORNING) / 3.6e9);
        commits.during(Hour.CALM);
        Duration calm = Duration.ofMinutes(13);
        day.pass(calm, CALM_HOUR.multipliedBy(calm.toSeconds()).dividedBy(3600));
    }

    private void pass(Duration real) {
        day.pass(TROUBLE.dividedBy(2), real.dividedBy(2));
    }

    private void listen(Part part, Trouble trouble, String words) {
        String said = leat.route(part.route()).lastReason();
        if (!said.contains(words)) {
            complaintsMissed.add(
                    part.route() + " " + trouble + ": \"" + words + "\" is not in: " + said);
        }
    }

    private void catchUp(Part part) {
        long latest = System.nanoTime() + LONGEST_CATCH_UP_REAL.toNanos();
        while (!books.isDone(part.route()) && System.nanoTime() < latest) {
            day.pass(Duration.ofSeconds(4), Duration.ofMillis(10));
        }
    }

    private void restOfTheDay() {
        long left = endOfDay - leat.nowMicros();
        if (left > 0) {
            Duration event = Duration.ofSeconds(left / Water.SECOND);
            day.pass(event, CALM_HOUR.multipliedBy(event.toSeconds()).dividedBy(3600));
        }
        day.pass(Duration.ofSeconds(40), Duration.ofSeconds(1));
    }

    private void print(List<Part> parts, Result result) {
        for (Part part : parts) {
            part.spells().forEach(s -> System.out.println(result.line(part.route(), s.trouble())));
        }
        for (String route : List.of("broker", "mail", "hook", "siren", "log")) {
            System.out.printf(
                    "%-7s all well:            %s%n",
                    route, result.delays(route, Hour.CALM::equals));
            System.out.printf(
                    "%-7s another in trouble:  %s%n",
                    route,
                    result.delays(route, h -> !h.equals(Hour.CALM) && !h.route().equals(route)));
        }
        for (String route : List.of("broker", "mail", "hook", "siren", "log")) {
            for (Trouble t : Trouble.values()) {
                for (Part p : parts) {
                    System.out.printf(
                            "%-7s while %s %s:  %s%n",
                            route,
                            p.route(),
                            t,
                            result.delays(
                                    route,
                                    h ->
                                            h.equals(Hour.of(p.route(), t))
                                                    && !h.route().equals(route)));
                }
            }
        }
        System.out.println("rows " + result.rows().size() + " given up " + result.givenUp().size());
    }

    private void check(List<Part> parts, Result result, HookPart hook, LogPart log) {
        SoftAssertions all = new SoftAssertions();
        all.assertThat(result.lost()).as("lost").isEmpty();
        all.assertThat(result.givenUpInSilence()).as("given up in silence").isEmpty();
        all.assertThat(result.beforeTheirCommit()).as("told before the commit").isEmpty();
        all.assertThat(result.notWhatWasCommitted()).as("not what was committed").isEmpty();
        all.assertThat(complaintsMissed).as("health").isEmpty();
        all.assertThat(hook.unsigned()).as("unsigned").isZero();
        for (Part part : parts) {
            all.assertThat(result.repeats(part.route())).as("repeats " + part.route()).isPositive();
        }
        all.assertAll();
    }

    private Site site(BrokerPart broker, List<Part> parts) throws Exception {
        StringBuilder yaml = new StringBuilder();
        yaml.append("site: { name: Boatyard, time_zone: UTC }\n");
        yaml.append("store: { folder: ./data }\n");
        yaml.append("connections:\n  ").append(BrokerPart.CONNECTION).append(":\n    ");
        yaml.append(broker.connectionYaml()).append("\n");
        yaml.append("limits:\n  signal: { blind: 4 s, missing: 20 s, stuck: 1 h }\n");
        yaml.append("machines:\n");
        for (String machine : List.of("jet-1", "jet-2")) {
            yaml.append("  ").append(machine).append(":\n    channels:\n");
            for (String channel : List.of("inlet", "boosted", "running")) {
                yaml.append("      ").append(channel).append(": { from: hall, topic: { name: ");
                yaml.append(machine).append('/').append(channel).append(" }");
                yaml.append(channel.equals("running") ? " }\n" : ", unit: psi }\n");
            }
        }
        yaml.append("routes:\n");
        for (Part part : parts) {
            yaml.append("  ").append(part.route()).append(": { ");
            yaml.append(part.yaml()).append(" }\n");
        }
        Path file = Files.writeString(folder.resolve("site.yaml"), yaml);
        Map<String, String> secrets =
                Map.of("BROKER", "invented", "MAIL", "invented", "HOOK", WebhookReceiver.SECRET);
        LoadedSite loaded = SiteFile.load(file, name -> Optional.ofNullable(secrets.get(name)));
        assertThat(loaded.problems()).isEmpty();
        return loaded.site().orElseThrow();
    }
}
