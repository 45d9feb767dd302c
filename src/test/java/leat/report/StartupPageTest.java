package leat.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import leat.alarm.AlarmChange;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import leat.rule.JudgedRun;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;
import org.junit.jupiter.api.Test;
import org.xml.sax.InputSource;

/** The page of a startup; the last one drawn is left in target/startup-page.html to look at. */
class StartupPageTest {

    private static final long ZERO = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z
    private static final Shown SHOWN = new Shown(ZoneId.of("Europe/London"), PressureUnit.PSI);

    /** Everything that a page needs, from a scenario of the bench. */
    static StartupView view(String name, String machine, Optional<StartupView.Overlay> other) {
        Scenario scenario = Catalogue.find(name).orElseThrow();
        Watch watch =
                new Watch(
                        new WatchSettings(
                                "jet",
                                Set.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING),
                                Limits.DEFAULTS));
        List<Outcome.StartupMeasured> startups = new ArrayList<>();
        List<AlarmChange> alarms = new ArrayList<>();
        List<JudgedRun> runs = new ArrayList<>();
        List<Sample> samples =
                ScenarioRun.samples(scenario, 20)
                        .filter(s -> s.machine().equals(scenario.machineNames().get(0)))
                        .toList();
        for (Sample sample : samples) {
            long at = ZERO + sample.micros();
            watch.feed(
                    Reading.good(Channel.RUNNING, at, sample.running() ? 1 : 0),
                    o -> note(o, startups, alarms, runs));
            watch.feed(
                    Reading.good(Channel.INLET, at, sample.inletPsi()),
                    o -> note(o, startups, alarms, runs));
            watch.feed(
                    Reading.good(Channel.BOOSTED, at, sample.boostedPsi()),
                    o -> note(o, startups, alarms, runs));
            if (at % Tick.PERIOD_MICROS == 0) {
                watch.feed(new Tick(at), o -> note(o, startups, alarms, runs));
            }
        }
        Trace.Builder inlet = new Trace.Builder();
        Trace.Builder boosted = new Trace.Builder();
        double start = (startups.get(0).startup().startedAtMicros() - ZERO) / 1e6;
        for (Sample sample : samples) {
            double second = sample.seconds() - start;
            if (second >= -3 && second <= 17) {
                inlet.add(second, sample.inletPsi());
                boosted.add(second, sample.boostedPsi());
            }
        }
        return new StartupView(
                "Boatyard",
                machine,
                startups.get(0).startup(),
                startups.get(0).verdict(),
                Limits.DEFAULTS,
                inlet.build(),
                boosted.build(),
                alarms,
                other,
                Optional.empty(),
                Optional.empty(),
                runs.stream().reduce((a, b) -> b),
                Optional.empty(),
                Optional.empty());
    }

    private static void note(
            Outcome outcome,
            List<Outcome.StartupMeasured> startups,
            List<AlarmChange> alarms,
            List<JudgedRun> runs) {
        if (outcome instanceof Outcome.StartupMeasured measured) {
            startups.add(measured);
        } else if (outcome instanceof Outcome.AlarmChanged changed) {
            alarms.add(changed.change());
        } else if (outcome instanceof Outcome.RunJudged judged) {
            runs.add(judged.judged());
        }
    }

    @Test
    void page_needs_nothing_but_itself() throws IOException {
        StartupView healthy = view("healthy", "jet-1", Optional.empty());
        StartupView.Overlay overlay =
                new StartupView.Overlay("a healthy start", healthy.startup(), healthy.boosted());

        String page = StartupPage.of(view("worn-booster", "jet-2", Optional.of(overlay)), SHOWN);
        Files.writeString(Path.of("target/startup-page.html"), page);

        assertThat(page)
                .contains(
                        "<svg",
                        "jet-2, start of 2026-01-05",
                        "rise 10-90 % from rest",
                        "a healthy start",
                        "<p class=\"verdict warning\"><svg class=\"shape\"",
                        "Run of ",
                        "It raised: ",
                        "WARNING")
                .doesNotContain("<script", "http://", "https://", "src=", "@import", "url(");
    }

    @Test
    void lines_that_end_together_have_names_that_can_be_told_apart() {
        String page = StartupPage.of(view("not-turning", "jet-1", Optional.empty()), SHOWN);

        assertThat(Math.abs(nameAt(page, "boosted-text") - nameAt(page, "inlet-text")))
                .isGreaterThanOrEqualTo(14.9);
    }

    private static double nameAt(String page, String style) {
        Matcher name =
                Pattern.compile("class=\"" + style + "\" x=\"[^\"]*\" y=\"([^\"]*)\"")
                        .matcher(page);
        assertThat(name.find()).isTrue();
        return Double.parseDouble(name.group(1));
    }

    @Test
    void page_is_well_formed_but_for_its_doctype() throws Exception {
        String page = StartupPage.of(view("healthy", "jet-1", Optional.empty()), SHOWN);

        String body =
                page.substring(
                        page.indexOf("<main>"), page.indexOf("</main>") + "</main>".length());

        assertThat(
                        DocumentBuilderFactory.newInstance()
                                .newDocumentBuilder()
                                .parse(new InputSource(new StringReader(body)))
                                .getElementsByTagName("polyline")
                                .getLength())
                .isEqualTo(2);
    }

    @Test
    void hostile_names_come_out_harmless() {
        String page =
                StartupPage.of(
                        view("healthy", "<img onerror='x'>\u0007\n\"&", Optional.empty()), SHOWN);

        assertThat(page)
                .doesNotContain("<img", "\u0007")
                .contains("&lt;img onerror=&#39;x&#39;&gt;");
    }

    @Test
    void a_start_without_figures_says_why_instead_of_numbers() {
        StartupView healthy = view("healthy", "jet-1", Optional.empty());
        StartupView empty =
                new StartupView(
                        "Boatyard",
                        "jet-1",
                        healthy.startup(),
                        healthy.verdict(),
                        Limits.DEFAULTS,
                        new Trace.Builder().build(),
                        new Trace.Builder().build(),
                        List.of(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty());

        String page = StartupPage.of(empty, SHOWN);

        assertThat(page).contains("<svg", "<p>Nothing.</p>").doesNotContain("NaN", "Infinity");
    }
}
