package leat.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.config.Plain;
import leat.config.Point;
import leat.report.Fold;
import leat.report.TextTable;
import leat.signal.PressureUnit;
import leat.wiring.Guess;
import leat.wiring.Sense;
import leat.words.Phrases;
import picocli.CommandLine.Model.CommandSpec;

/** Says what was guessed: the list with the reasons, or the lines of one channel. */
final class ProbeSays {

    private static final int SHOWN = 12;

    private final CommandSpec spec;
    private final TableWidth width;
    private final Phrases phrases;
    private final ProbeWishes wishes;
    private final ProbeWishes.Lines lines;

    ProbeSays(
            CommandSpec spec,
            TableWidth width,
            ProbeWishes wishes,
            ProbeWishes.Lines lines,
            Phrases phrases) {
        this.phrases = phrases;
        this.spec = spec;
        this.width = width;
        this.wishes = wishes;
        this.lines = lines;
    }

    /** A sentence: beside the lines of a channel it is no part of the output. */
    void note(String words) {
        PrintWriter to =
                wishes.wantsLines() ? spec.commandLine().getErr() : spec.commandLine().getOut();
        to.print(Fold.of(width.columns(), words));
        to.flush();
    }

    /** Returns the exit code. */
    int guesses(List<Guess> guesses) {
        List<Guess> wanted = guesses.stream().filter(wishes::isWanted).toList();
        Optional<Guess> best = wanted.stream().filter(g -> g.sense().isLikely()).findFirst();
        if (best.isEmpty()) {
            list(wanted);
            note(phrases.say("cli.probe.nothing"));
            return wishes.wantsLines() ? ExitCode.FAILED : ExitCode.DONE;
        }
        if (!wishes.wantsLines()) {
            list(wanted);
            note(phrases.say("cli.probe.next", wanted.get(Math.min(1, wanted.size() - 1)).as()));
            return ExitCode.DONE;
        }
        lines.of(wishes, best.get(), remark(best.get()))
                .forEach(spec.commandLine().getOut()::println);
        note(phrases.say("cli.probe.taken", place(best.get()), remark(best.get())));
        others(wanted, best.get());
        return ExitCode.DONE;
    }

    private void others(List<Guess> wanted, Guess best) {
        List<Guess> others =
                wanted.stream().filter(g -> g.sense().isLikely() && !g.equals(best)).toList();
        if (others.isEmpty()) {
            return;
        }
        String compare =
                wishes.doubts().gauge().isPresent() ? "" : " " + phrases.say("cli.probe.compare");
        note(
                phrases.say(
                                "cli.probe.others",
                                others.size(),
                                place(others.get(0)),
                                remark(others.get(0)))
                        + compare);
    }

    private void list(List<Guess> guesses) {
        if (wishes.wantsLines() || guesses.isEmpty()) {
            return;
        }
        note("");
        note(phrases.say("cli.probe.likeliest"));
        TextTable table =
                new TextTable("", phrases.say("cli.probe.where"))
                        .firm(phrases.say("cli.probe.as"))
                        .firm(phrases.say("cli.probe.number"))
                        .firm(phrases.say("cli.probe.pressure"))
                        .soft(phrases.say("cli.column.why"), 20);
        int shown = wishes.all() ? guesses.size() : Math.min(SHOWN, guesses.size());
        for (Guess guess : guesses.subList(0, shown)) {
            table.row(
                    guess.sense().isLikely() ? "*" : "",
                    place(guess),
                    guess.as(),
                    Plain.number(guess.number()),
                    pressure(guess.sense().psi()),
                    guess.sense().why().in(phrases));
        }
        boolean whole = width.print(table);
        if (shown < guesses.size()) {
            note(phrases.say("cli.probe.more", Integer.toString(guesses.size() - shown)));
        }
        width.more(whole, phrases);
    }

    /** In English: it goes into site.yaml as a comment. */
    private String remark(Guess guess) {
        Sense sense = guess.sense();
        String gauge =
                wishes.doubts()
                        .gauge()
                        .map(g -> "a hand gauge showed " + g)
                        .orElse("no hand gauge was read");
        String pressure = sense.psi().isPresent() ? " = " + pressure(sense.psi()) : "";
        return guess.as() + ": " + Plain.number(guess.number()) + pressure + "; " + gauge;
    }

    private String pressure(OptionalDouble psi) {
        PressureUnit unit = wishes.doubts().unit();
        return psi.isEmpty()
                ? "?"
                : String.format(
                        Locale.ROOT,
                        "%." + unit.decimals() + "f %s",
                        unit.fromPsi(psi.getAsDouble()),
                        unit.symbol());
    }

    private static String place(Guess guess) {
        if (guess.point() instanceof Point.Register register) {
            String table = register.table() == Point.Table.INPUT_REGISTER ? "input " : "holding ";
            return table + register.address();
        }
        Point.Topic topic = (Point.Topic) guess.point();
        return topic.topic() + topic.valuePointer().map(pointer -> " " + pointer).orElse("");
    }
}
