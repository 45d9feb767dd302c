package leat.cli;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.diagnose.Cause;
import leat.diagnose.Found;
import leat.diagnose.Score;
import leat.diagnose.Suspect;
import leat.json.IfThere;
import leat.json.Published;
import leat.replay.SaidAndFound;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.store.StoreReader;

/**
 * How often leat was right here.
 *
 * @param found what people found, oldest first
 */
record WhyScore(List<Found> found) {

    /** Of these machines. */
    static WhyScore of(StoreReader reader, List<String> machines) {
        return new WhyScore(
                machines.stream()
                        .flatMap(machine -> SaidAndFound.of(reader, machine).stream())
                        .sorted(Comparator.comparingLong(Found::atMicros))
                        .toList());
    }

    /** A table and a line under it. */
    void print(Shown shown, TableWidth width) {
        if (found.isEmpty()) {
            width.say(shown.say("score.none"));
            return;
        }
        TextTable table =
                new TextTable(shown.say("score.when"))
                        .soft(shown.say("score.machine"), 8)
                        .soft(shown.say("score.said"), 12)
                        .soft(shown.say("score.found"), 12)
                        .firm(shown.say("score.right"));
        for (Found one : found) {
            table.row(
                    shown.day(one.atMicros()),
                    one.machine(),
                    one.said().map(said -> said(said, shown)).orElse("-"),
                    one.cause().key(),
                    one.said().isEmpty()
                            ? "-"
                            : shown.say(one.isRight() ? "score.yes" : "score.no"));
        }
        width.print(table);
        width.say(sum(shown));
    }

    private static String said(Suspect said, Shown shown) {
        return said.cause().key() + " " + shown.percent(said.weight());
    }

    private String sum(Shown shown) {
        Score score = Score.of(found);
        return shown.say(
                score.said() == 0
                        ? "score.nothing"
                        : score.sure() == 0 ? "score.sum" : "score.sum.sure",
                shown.number(score.right()),
                shown.number(score.said()),
                shown.number(100 * Score.SURE),
                shown.number(score.sureRight()),
                shown.number(score.sure()));
    }

    /** The document. */
    @Published("leat.score/1")
    record Told(List<Line> found, int said, int right, int sure, int sureRight) {}

    /** One finding. */
    record Line(
            String machine,
            long atMicros,
            Cause found,
            @IfThere Optional<Cause> said,
            @IfThere OptionalDouble weight,
            boolean right) {

        static Line of(Found one) {
            return new Line(
                    one.machine(),
                    one.atMicros(),
                    one.cause(),
                    one.said().map(Suspect::cause),
                    one.said().stream().mapToDouble(Line::toFourDecimals).findFirst(),
                    one.isRight());
        }

        private static double toFourDecimals(Suspect said) {
            return Math.rint(said.weight() * 1e4) / 1e4;
        }
    }

    String json() {
        Score score = Score.of(found);
        return Json.print(
                new Told(
                        found.stream().map(Line::of).toList(),
                        score.said(),
                        score.right(),
                        score.sure(),
                        score.sureRight()));
    }
}
