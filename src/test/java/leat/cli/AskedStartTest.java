package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.stream.LongStream;
import leat.Gear;
import leat.measure.Measurand;
import leat.report.Shown;
import leat.signal.PressureUnit;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Starts that lie seconds to a minute apart, of a line drawn by chance: what is shown of one is of
 * that one, wherever it is shown, though a replay of it sees those before it too.
 */
class AskedStartTest {

    private static final Shown SHOWN = new Shown(ZoneOffset.UTC, PressureUnit.PSI);
    private static final List<Measurand> TOLD =
            List.of(Measurand.BASE, Measurand.TOP, Measurand.RISE, Measurand.INLET_RUNNING);

    @TempDir Path folder;

    static LongStream seeds() {
        return Gear.seeds(2, 200);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void text_page_and_json_are_of_the_start_that_was_asked_for(long seed) throws IOException {
        StoredSite site = StoredSite.in(folder);
        site.saw("jet-1", new CloseStarts(new Random(seed)).inputs(StoredSite.SIX));
        List<StoredStartup> starts = starts(site);
        assertThat(starts).hasSizeGreaterThan(1);

        for (StoredStartup asked : starts) {
            StoredStartup other = starts.get((int) (asked.number() % starts.size()));
            Path page = folder.resolve("page.html");

            Ran text =
                    site.leat(
                            "replay",
                            asked.name(),
                            "--report",
                            page.toString(),
                            "--against",
                            other.name());
            Ran json = site.leat("replay", asked.name(), "--json");

            assertThat(text.code()).as(text.err()).isZero();
            isTold(text.out(), asked);
            isOn(Files.readString(page), asked, other);
            isIn(new ObjectMapper().readTree(json.out()), asked);
        }
    }

    private static List<StoredStartup> starts(StoredSite site) {
        try (StoreReader reader = StoreReader.open(site.database())) {
            return reader.startups(StartupQuery.newest(100).of("jet-1"));
        }
    }

    private static void isTold(String text, StoredStartup asked) {
        String told = text.substring(text.indexOf("\nStart at "));
        assertThat(told)
                .as(asked.name())
                .startsWith("\nStart at " + SHOWN.time(asked.startup().startedAtMicros()) + ": ");
        for (Measurand measurand : TOLD) {
            assertThat(told)
                    .as(asked.name())
                    .containsPattern(
                            Pattern.quote(SHOWN.findings().title(measurand))
                                    + " +(?:- \\()?"
                                    + Pattern.quote(figure(measurand, asked)));
        }
    }

    private static void isOn(String page, StoredStartup asked, StoredStartup other) {
        assertThat(line(page, "<h1>")).isEqualTo("<h1>" + named(asked.machine(), asked) + "</h1>");
        assertThat(line(page, "Behind it in grey")).contains(named(other.name(), other));
        for (Measurand measurand : TOLD) {
            String figures = page.substring(page.indexOf("<h2>Measured"));
            String[] row = line(figures, SHOWN.findings().title(measurand) + "<").split("<td");
            assertThat(row[1]).as(asked.name()).contains(figure(measurand, asked));
            assertThat(row[2])
                    .as(asked.name() + " against " + other.name())
                    .contains(figure(measurand, other));
        }
    }

    private static String line(String page, String part) {
        return page.lines().filter(line -> line.contains(part)).findFirst().orElseThrow();
    }

    private static String named(String name, StoredStartup start) {
        return SHOWN.say("screen.start", name, SHOWN.time(start.startup().startedAtMicros()));
    }

    /** As a person is shown it; of what could not be measured, why. */
    private static String figure(Measurand measurand, StoredStartup start) {
        return start.startup().figure(measurand).isPresent()
                ? SHOWN.figure(measurand.unit(), start.startup().figure(measurand))
                : SHOWN.findings().absence(start.startup().figure(measurand).absentBecause());
    }

    private static void isIn(JsonNode json, StoredStartup asked) {
        JsonNode about = null;
        for (JsonNode start : json.get("startups")) {
            about = start.get("at").equals(json.get("about")) ? start : about;
        }
        assertThat(about).as(asked.name()).isNotNull();
        assertThat(about.get("rise_s").isNull())
                .isEqualTo(!asked.startup().riseSeconds().isPresent());
        if (asked.startup().riseSeconds().isPresent()) {
            assertThat(about.get("rise_s").asDouble())
                    .as(asked.name())
                    .isEqualTo(asked.startup().riseSeconds().get());
        }
    }
}
