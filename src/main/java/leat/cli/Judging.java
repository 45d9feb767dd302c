package leat.cli;

import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import leat.acquire.recording.Recording;
import leat.acquire.recording.RecordingHead;
import leat.config.LoadedSite;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.report.Shown;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.store.StoreReader;
import leat.watch.WatchSettings;
import leat.words.Language;
import leat.words.Saying;

/**
 * By what a past is judged.
 *
 * @param settings the machine and its limits
 * @param configHash the configuration that they are from; empty for the defaults
 * @param shown how its numbers are shown
 * @param remarks what a person should know of this choice; whole sentences
 */
record Judging(
        WatchSettings settings, Optional<String> configHash, Shown shown, List<Saying> remarks) {

    /** A machine that nobody has named. */
    private static final String NAMELESS = "recording";

    Judging {
        List<Saying> all = new ArrayList<>(remarks);
        NoInlet.note(settings.wired()).ifPresent(all::add);
        remarks = List.copyOf(all);
    }

    /** In the language of what is shown. */
    List<String> notes() {
        return remarks.stream().map(remark -> remark.in(shown.phrases())).toList();
    }

    /**
     * For a recording: the site that the person names, else the configuration in the file, else the
     * defaults.
     */
    static Judging of(
            Recording recording,
            Optional<Site> given,
            Optional<String> machine,
            Optional<Language> asked) {
        List<Saying> notes = new ArrayList<>();
        Optional<RecordingHead> head = recording.head();
        Optional<Site> embedded = head.flatMap(h -> embedded(h, notes));
        Optional<String> name = machine.or(() -> head.map(RecordingHead::machine));
        Optional<Site> site = given.or(() -> embedded);
        Language language = asked.or(() -> site.map(Site::language)).orElse(Language.ENGLISH);
        if (site.isEmpty()) {
            WatchSettings defaults =
                    new WatchSettings(name.orElse(NAMELESS), recording.channels(), Limits.DEFAULTS);
            ZoneId zone = head.map(RecordingHead::zone).orElse(ZoneOffset.UTC);
            return new Judging(
                    defaults,
                    Optional.empty(),
                    new Shown(zone, recording.unit().orElse(PressureUnit.PSI), language),
                    notes);
        }
        MachineSettings judged = machine(site.get(), name);
        Set<Channel> wired =
                embedded.flatMap(s -> s.machine(head.orElseThrow().machine()))
                        .map(m -> (Set<Channel>) EnumSet.copyOf(m.byChannel().keySet()))
                        .orElse(recording.channels());
        return new Judging(
                new WatchSettings(name.orElse(judged.name()), wired, judged.limits()),
                Optional.of(site.get().hash()),
                new Shown(
                        site.get().zone(), recording.unit().orElse(site.get().shownIn()), language),
                notes);
    }

    /** The configuration in the file; its line ends may have been changed on the way. */
    private static Optional<Site> embedded(RecordingHead head, List<Saying> notes) {
        String text = head.configText();
        for (String form : List.of(text, text.replace("\n", "\r\n"))) {
            Optional<Site> site = SiteFile.archived(form).site();
            if (site.isPresent() && site.get().hash().equals(head.configHash())) {
                return site;
            }
        }
        LoadedSite loaded = SiteFile.archived(text);
        if (loaded.site().isEmpty()) {
            notes.add(Saying.of("cli.judging.file-unread"));
        } else if (loaded.site().get().machine(head.machine()).isEmpty()) {
            notes.add(Saying.of("cli.judging.file-without"));
            return Optional.empty();
        } else {
            notes.add(Saying.of("cli.judging.file-changed"));
        }
        return loaded.site();
    }

    private static MachineSettings machine(Site site, Optional<String> name) {
        if (name.isEmpty() && site.machines().size() == 1) {
            return site.machines().get(0);
        }
        return name.flatMap(site::machine)
                .orElseThrow(
                        () ->
                                new CommandFailure.Expected(
                                        ExitCode.WRONG,
                                        "cli.judging.which",
                                        Saying.either(
                                                site.machines().stream()
                                                        .map(each -> "--machine " + each.name())
                                                        .toList())));
    }

    /**
     * For what the store holds: the configuration that it was judged under, else the site as it is
     * now, else the defaults.
     */
    static Judging of(
            StoreReader reader,
            String machine,
            String configHash,
            Optional<Site> now,
            Shown shown) {
        Optional<Site> then =
                reader.configText(configHash).flatMap(text -> SiteFile.archived(text).site());
        Optional<MachineSettings> judged = then.flatMap(s -> s.machine(machine));
        if (judged.isPresent()) {
            boolean changed = now.isPresent() && !now.get().hash().equals(configHash);
            return new Judging(
                    settings(judged.get()),
                    Optional.of(configHash),
                    shown,
                    changed ? List.of(Saying.of("cli.judging.then")) : List.of());
        }
        Optional<MachineSettings> today = now.flatMap(s -> s.machine(machine));
        return today.map(
                        settings ->
                                new Judging(
                                        settings(settings),
                                        Optional.of(now.orElseThrow().hash()),
                                        shown,
                                        List.of(Saying.of("cli.judging.today"))))
                .orElseGet(
                        () ->
                                new Judging(
                                        new WatchSettings(
                                                machine,
                                                Set.of(Channel.INLET, Channel.BOOSTED),
                                                Limits.DEFAULTS),
                                        Optional.empty(),
                                        shown,
                                        List.of(Saying.of("cli.judging.defaults"))));
    }

    private static WatchSettings settings(MachineSettings machine) {
        return new WatchSettings(
                machine.name(), EnumSet.copyOf(machine.byChannel().keySet()), machine.limits());
    }
}
