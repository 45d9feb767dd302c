package leat.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import leat.interop.Peer;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The page of a start on paper is one sheet of A4, as the browser prints it; pages are left in
 * target/paper to look at.
 */
class StartupPaperTest {

    private static final Path PAPER = Path.of("target/paper");
    private static final Pattern PAGE = Pattern.compile("/Type\\s*/Page\\b");

    @TempDir private static Path learned;
    @TempDir private static Path learning;
    private static StoredSite known;
    private static StoredSite unknown;

    @TempDir Path folder;

    @BeforeAll
    static void live() throws IOException {
        Files.createDirectories(PAPER);
        known = StoredSite.in(learned).saw("jet-1", BaselineCommandTest.starts(10, 3));
        unknown =
                StoredSite.in(learning)
                        .saw("jet-1", StoredSite.pressures("healthy", "jet-1", StoredSite.SIX))
                        .saw(
                                "jet-2",
                                StoredSite.pressures("worn-booster", "jet-1", StoredSite.SIX));
    }

    @ParameterizedTest
    @CsvSource({
        "known, jet-1/11, en", "known, jet-1/13, de", "unknown, jet-1/1, en",
        "unknown, jet-1/1, de", "unknown, jet-2/1, en", "unknown, jet-2/1, de"
    })
    void start_prints_on_one_sheet(String site, String number, String language) throws Exception {
        Path browser = Peer.require("chromium");
        Path page = page(site, number, language);

        assertThat(sheets(browser, page)).isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource({"en", "de"})
    void slow_start_with_many_causes_prints_on_one_sheet(String language) throws Exception {
        Path browser = Peer.require("chromium");
        Path recording = folder.resolve("slow.csv");
        Ran.leat("simulate", "air-after-service", "--record", recording.toString());
        Path page = PAPER.resolve("slow-" + language + ".html");
        Ran.leat("replay", recording.toString(), "--report", page.toString(), "--lang", language);

        assertThat(Files.readString(page)).contains("<rect class=\"weight\"", "class=\"steps\"");
        assertThat(sheets(browser, page)).isEqualTo(1);
    }

    @Test
    void what_is_beyond_a_limit_or_the_own_baseline_is_marked_by_shape_and_words()
            throws IOException {
        String page = Files.readString(page("known", "jet-1/13", "en"));

        assertThat(row(page, "boosted reached"))
                .startsWith("<tr class=\"beyond\">")
                .contains("<svg class=\"shape\"", "not met:</strong> at least 90.0 psi");
        assertThat(row(page, "climb from inlet"))
                .startsWith("<tr class=\"beyond\">")
                .contains("<svg class=\"shape\"", "unlike usual")
                .doesNotContain("not met");
        assertThat(row(page, "inlet while running")).doesNotContain("beyond", "<svg");
    }

    private static String row(String page, String title) {
        int at = page.indexOf("<th>" + title + "</th>");
        return page.substring(page.lastIndexOf("<tr", at), page.indexOf("</tr>", at));
    }

    private static Path page(String site, String number, String language) {
        Path page = PAPER.resolve(site + "-" + number.replace('/', '-') + "-" + language + ".html");
        Ran ran =
                (site.equals("known") ? known : unknown)
                        .leat("replay", number, "--report", page.toString(), "--lang", language);
        assertThat(ran.code()).isZero();
        return page;
    }

    private int sheets(Path browser, Path page) throws Exception {
        Path pdf = folder.resolve("page.pdf");
        Process process =
                new ProcessBuilder(
                                List.of(
                                        browser.toString(),
                                        "--headless=new",
                                        "--no-sandbox",
                                        "--disable-gpu",
                                        "--disable-dev-shm-usage",
                                        "--user-data-dir=" + folder.resolve("profile"),
                                        "--no-pdf-header-footer",
                                        "--print-to-pdf=" + pdf,
                                        page.toUri().toString()))
                        .redirectErrorStream(true)
                        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                        .start();
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        return (int)
                PAGE.matcher(Files.readString(pdf, StandardCharsets.ISO_8859_1)).results().count();
    }
}
