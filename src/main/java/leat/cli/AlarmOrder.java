package leat.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;
import leat.instruct.Refused;
import leat.instruct.Request;
import leat.instruct.Requests;
import leat.live.OutageNow;
import leat.report.Shown;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;

/** Some alarms and who says something about them: asks for one thing for each of the alarms. */
final class AlarmOrder {

    @Parameters(
            arity = "1..*",
            paramLabel = "ALARM",
            description = "number or id, as leat alarms shows them")
    private List<String> alarms;

    @Mixin private Asking asking;

    /** What is asked for one alarm. */
    @FunctionalInterface
    interface Question {
        Request of(Requests requests, String alarm) throws Refused;
    }

    /**
     * @param alarm as it was typed
     * @param request what is asked for it
     */
    private record Found(String alarm, Request request) {}

    /**
     * Asks and prints what became of it.
     *
     * @return the exit code: the worst of all
     * @throws Refused when the words are wrong; then nothing was asked for any of them
     */
    int ask(CommandSpec spec, Question question) throws Refused, InterruptedException {
        return ask(spec, question, (request, shown) -> "");
    }

    /**
     * @param more what to add to the line of an alarm for which it was done, or will be
     */
    int ask(CommandSpec spec, Question question, BiFunction<Request, Shown, String> more)
            throws Refused, InterruptedException {
        return ask(spec, alarms, question, more);
    }

    /** Likewise, and of an outage for all that nobody has acknowledged. */
    int askOfWhole(CommandSpec spec, Question question) throws Refused, InterruptedException {
        OutageChoice outages = OutageChoice.of(asking.site());
        List<String> all =
                alarms.stream().flatMap(alarm -> outages.with(alarm).stream()).distinct().toList();
        int code = ask(spec, all, question, (request, shown) -> "");
        for (OutageNow outage : outages.outages()) {
            List<String> its =
                    outage.alarms().stream()
                            .map(alarm -> Long.toString(alarm.number()))
                            .filter(all::contains)
                            .toList();
            if (its.size() > 1) {
                spec.commandLine()
                        .getOut()
                        .println(
                                asking.site()
                                        .shown()
                                        .say(
                                                "cli.ack.outage",
                                                its.size(),
                                                String.join(", ", its),
                                                outages.what(outage)));
            }
        }
        return code;
    }

    private int ask(
            CommandSpec spec,
            List<String> about,
            Question question,
            BiFunction<Request, Shown, String> more)
            throws Refused, InterruptedException {
        SiteChoice.Chosen chosen = asking.site();
        PrintWriter out = spec.commandLine().getOut();
        try (InstructionBox box = InstructionBox.open(chosen.database())) {
            List<Found> found =
                    requests(spec, about, asking.requests(box, chosen), question, chosen.shown());
            int code = found.size() == about.size() ? ExitCode.DONE : ExitCode.WRONG;
            List<Long> left = found.stream().map(each -> each.request().leaveIn(box)).toList();
            boolean isTakenUp = true;
            for (int i = 0; i < found.size(); i++) {
                Found each = found.get(i);
                InstructionFate fate =
                        isTakenUp ? Waiting.fate(box, left.get(i)) : box.fate(left.get(i));
                isTakenUp = fate.state() != InstructionFate.State.WAITING;
                boolean refused = fate.state() == InstructionFate.State.REFUSED;
                String words =
                        chosen.shown()
                                .say(
                                        "cli.about.alarm",
                                        each.alarm(),
                                        Waiting.words(fate, chosen.shown().phrases()));
                out.println(words + (refused ? "" : more.apply(each.request(), chosen.shown())));
                code = Math.max(code, Waiting.code(fate));
            }
            return code;
        }
    }

    /** In order; one that is not there is told and left out. */
    private static List<Found> requests(
            CommandSpec spec, List<String> about, Requests requests, Question question, Shown shown)
            throws Refused {
        List<Found> found = new ArrayList<>();
        for (String alarm : about) {
            try {
                found.add(new Found(alarm, question.of(requests, alarm)));
            } catch (Refused e) {
                if (!e.isAbsent()) {
                    throw e;
                }
                spec.commandLine()
                        .getErr()
                        .println(
                                shown.say(
                                        "cli.see-alarms",
                                        CommandFailure.sentence(e, shown.phrases())));
            }
        }
        return found;
    }
}
