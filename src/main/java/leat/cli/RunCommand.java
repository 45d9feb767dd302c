package leat.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import leat.config.LimitWords;
import leat.config.LoadedSite;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.json.RecordJson;
import leat.rule.Limit;
import leat.service.Daemon;
import leat.service.RunFigures;
import leat.work.NoMemory;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "run",
        mixinStandardHelpOptions = true,
        description = "Watches a site until it is told to end (Ctrl-C or SIGTERM).")
final class RunCommand implements Callable<Integer> {

    private static final Logger LOG = LoggerFactory.getLogger(RunCommand.class);

    @Parameters(
            paramLabel = "SITE.YAML",
            defaultValue = "site.yaml",
            description = "default: ${DEFAULT-VALUE}")
    private Path file;

    @Option(
            names = "--figures",
            paramLabel = "FILE",
            description =
                    "at the end, write figures of the run (polls, jitter, alarm latency) as JSON")
    private Path figures;

    @Override
    public Integer call() throws InterruptedException {
        NoMemory.endForAnyThread();
        LoadedSite loaded = SiteChoice.loaded(file);
        Mistakes.shown(loaded.warnings())
                .forEach(warning -> LOG.warn("{}", warning.replaceAll("\\R\\s*", "; ")));
        Site site = loaded.site().orElseThrow();
        sayEffective(site);
        Daemon daemon = daemon(site);
        CountDownLatch ended = new CountDownLatch(1);
        Thread closing = new Thread(() -> end(daemon, ended), "leat-end");
        Runtime.getRuntime().addShutdownHook(closing);
        daemon.start();
        ended.await();
        return ExitCode.DONE;
    }

    static Daemon daemon(Site site) {
        return new Daemon(site, Version.text(), RunCommand::archived);
    }

    /** An earlier configuration, read without its secrets: only its limits and channels matter. */
    private static Optional<Site> archived(String text) {
        return SiteFile.archived(text).site();
    }

    private void end(Daemon daemon, CountDownLatch ended) {
        daemon.close();
        if (figures != null) {
            write(daemon.figures());
        }
        ended.countDown();
    }

    private void write(RunFigures run) {
        try {
            Files.writeString(figures, RecordJson.write(run));
        } catch (IOException e) {
            LOG.error("{}: the figures cannot be written: {}", figures, e.toString());
        }
    }

    private static void sayEffective(Site site) {
        LOG.info("{}: configuration {}", site.name(), site.hash().substring(0, 12));
        for (MachineSettings machine : site.machines()) {
            StringBuilder changed = new StringBuilder();
            machine.limits()
                    .changed()
                    .forEach(
                            (limit, value) ->
                                    changed.append(changed.isEmpty() ? " " : ", ")
                                            .append(limit.key())
                                            .append('=')
                                            .append(
                                                    LimitWords.print(
                                                            limit, value, site.shownIn())));
            LOG.info(
                    "{}: channels {}, set level {}, limits other than default:{}",
                    machine.name(),
                    machine.byChannel().keySet().stream().map(c -> c.key()).toList(),
                    LimitWords.print(
                            Limit.LEVEL_SET, machine.limits().get(Limit.LEVEL_SET), site.shownIn()),
                    changed.isEmpty() ? " none" : changed);
        }
    }
}
