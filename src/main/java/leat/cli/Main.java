package leat.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.Callable;
import org.slf4j.bridge.SLF4JBridgeHandler;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The entry of the program. */
@Command(
        name = "leat",
        mixinStandardHelpOptions = true,
        versionProvider = Version.class,
        description = {
            "Watches the low-pressure feed water of waterjet intensifier pumps: judges each startup, the"
                    + " steady state and the rest state, and tells maintenance before the machine trips.",
            "",
            "leat only reads from the machine. It is no safety device and never replaces the machine's"
                    + " own trip."
        },
        footer = {
            "",
            "Exit codes: 0 done, 1 it did not work, 2 the words or the configuration are wrong, or there"
                    + " is no such machine, startup or alarm.",
            "Start with: leat demo"
        })
public final class Main implements Callable<Integer> {

    /** As they are listed by {@code leat help}. */
    private static final List<Class<?>> COMMANDS =
            List.of(
                    CommandLine.HelpCommand.class,
                    RunCommand.class,
                    DemoCommand.class,
                    SimulateCommand.class,
                    CheckCommand.class,
                    TellCommand.class,
                    SettingsCommand.class,
                    ProbeCommand.class,
                    ZeroCommand.class,
                    MachinesCommand.class,
                    WatchCommand.class,
                    AlarmsCommand.class,
                    StartupsCommand.class,
                    WhyCommand.class,
                    ReplayCommand.class,
                    BacktestCommand.class,
                    ExportCommand.class,
                    AckCommand.class,
                    ShelveCommand.class,
                    UnshelveCommand.class,
                    ResetCommand.class,
                    ServiceCommand.class,
                    OutOfServiceCommand.class,
                    JournalCommand.class,
                    AnswerCommand.class,
                    BaselineCommand.class,
                    StoreCommand.class,
                    MeasureCommand.class);

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        spec.commandLine().getErr().println("Which command?");
        spec.commandLine().usage(spec.commandLine().getErr());
        return ExitCode.WRONG;
    }

    public static void main(String[] arguments) {
        LiveLine.letTheLogWriteOverIt();
        SLF4JBridgeHandler.removeHandlersForRootLogger();
        SLF4JBridgeHandler.install();
        PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
        int code = execute(out, TableWidth.ofTerminal(), arguments);
        System.exit(code);
    }

    /**
     * Runs one command with its output going to {@code out}; returns the exit code.
     *
     * @param columns of the terminal
     */
    static int execute(PrintWriter out, int columns, String... arguments) {
        int code =
                line(arguments)
                        .setOut(out)
                        .setErr(new PrintWriter(System.err, true, StandardCharsets.UTF_8))
                        .setExecutionExceptionHandler(new CommandFailure())
                        .setParameterExceptionHandler(new WrongWords())
                        .setExpandAtFiles(false)
                        .setUsageHelpWidth(columns)
                        .execute(arguments);
        out.flush();
        return code;
    }

    /**
     * The command line that understands these words. Where the first one names a command, that one
     * alone is read in: reading in all of them is a good part of what a command takes to start.
     */
    static CommandLine line(String... arguments) {
        CommandLine line = new CommandLine(new Main());
        List<Class<?>> named =
                COMMANDS.stream()
                        .filter(each -> arguments.length > 0 && name(each).equals(arguments[0]))
                        .filter(each -> each != CommandLine.HelpCommand.class)
                        .toList();
        (named.isEmpty() ? COMMANDS : named).forEach(line::addSubcommand);
        return line;
    }

    private static String name(Class<?> command) {
        return command.getAnnotation(Command.class).name();
    }
}
