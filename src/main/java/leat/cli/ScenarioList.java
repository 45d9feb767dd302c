package leat.cli;

import java.util.List;
import java.util.Locale;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Guide;
import leat.bench.scenario.Scenario;
import leat.json.Published;
import leat.report.Json;

/** The scenarios that there are, with what each shows and how to tell it from its neighbours. */
final class ScenarioList {

    private static final int WIDTH = 80;
    private static final String INDENT = "    ";

    private ScenarioList() {}

    static String text() {
        StringBuilder text = new StringBuilder();
        for (Scenario scenario : Catalogue.all()) {
            Guide guide = scenario.guide();
            text.append(scenario.name()).append(System.lineSeparator());
            paragraph(text, "plays", scenario.description());
            paragraph(text, "shows", guide.shows());
            paragraph(text, "apart", guide.apart());
            paragraph(text, "expect", guide.expect());
        }
        return text.append(System.lineSeparator())
                .append("Everything here is invented. Play one with: leat simulate NAME")
                .append(System.lineSeparator())
                .toString();
    }

    private static void paragraph(StringBuilder text, String head, String words) {
        if (words.isEmpty()) {
            return;
        }
        StringBuilder line = new StringBuilder(String.format(Locale.ROOT, "%s%-8s", INDENT, head));
        int hanging = line.length();
        for (String word : words.split("\\s+")) {
            if (line.length() + word.length() > WIDTH) {
                text.append(line.toString().stripTrailing()).append(System.lineSeparator());
                line = new StringBuilder(" ".repeat(hanging));
            }
            line.append(word).append(' ');
        }
        text.append(line.toString().stripTrailing()).append(System.lineSeparator());
    }

    /** The document. */
    @Published("leat.scenarios/1")
    record Told(List<Line> scenarios) {}

    /** One scenario. */
    record Line(String name, String description, String shows, String apart, String expect) {}

    static String json() {
        return Json.print(
                        new Told(
                                Catalogue.all().stream()
                                        .map(
                                                s ->
                                                        new Line(
                                                                s.name(),
                                                                s.description(),
                                                                s.guide().shows(),
                                                                s.guide().apart(),
                                                                s.guide().expect()))
                                        .toList()))
                + System.lineSeparator();
    }
}
