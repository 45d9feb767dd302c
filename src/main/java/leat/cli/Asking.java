package leat.cli;

import java.nio.file.Path;
import java.util.List;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.instruct.Refused;
import leat.instruct.Request;
import leat.instruct.Requests;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import leat.words.Phrases;
import leat.words.Saying;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;

/** Asks the running leat for something in somebody's name, by way of the store. */
final class Asking {

    @Mixin private SiteChoice site;

    @Mixin private Who who;

    /** One thing to ask for. */
    @FunctionalInterface
    interface Question {
        Request of(Requests requests) throws Refused;
    }

    SiteChoice.Chosen site() {
        return site.chosen();
    }

    Path siteFile() {
        return site.siteFile();
    }

    /**
     * Asks for one thing and prints what became of it.
     *
     * @param about what the line begins with
     * @return the exit code
     */
    int ask(CommandSpec spec, Saying about, Question question)
            throws Refused, InterruptedException {
        SiteChoice.Chosen chosen = site.chosen();
        try (InstructionBox box = InstructionBox.open(chosen.database())) {
            InstructionFate fate = leave(box, question.of(requests(box, chosen)));
            Phrases phrases = chosen.shown().phrases();
            String words = about.in(phrases) + ": " + Waiting.words(fate, phrases);
            spec.commandLine().getOut().println(words);
            return Waiting.code(fate);
        }
    }

    Requests requests(InstructionBox box, SiteChoice.Chosen chosen) throws Refused {
        List<MachineSettings> machines = chosen.site().map(Site::machines).orElse(List.of());
        return new Requests(box, machines, who.name(), Who.nowMicros());
    }

    static InstructionFate leave(InstructionBox box, Request request) throws InterruptedException {
        return Waiting.fate(box, request.leaveIn(box));
    }
}
