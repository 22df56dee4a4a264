package lungwort.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import lungwort.dataset.DatabaseSummary;
import lungwort.dataset.Databases;
import lungwort.json.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Says what public databases a folder holds, and what is missing. */
@Command(
        name = "dataset",
        mixinStandardHelpOptions = true,
        description =
                "Say what a public database's folder holds: recordings, patients, classes, devices, and what is missing or odd.",
        footer = {
            "",
            "Example: lungwort dataset Downloads/BioCAS2022",
            "Exit code 1 if the folder is damaged; what only differs from the release is said as a warning. Layouts: datasets/README.md."
        })
@SuppressWarnings("NullAway.Init") // picocli fills the fields
final class DatasetCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(
            paramLabel = "DIR",
            description = "BioCAS2022 or ICBHI_final_database, or the folder that holds one or both.")
    private Path folder;

    @Option(names = "--json", description = "Print a JSON array, one object for each database.")
    private boolean json;

    @Override
    public Integer call() {
        List<DatabaseSummary> summaries =
                Databases.all(folder).stream().map(DatabaseSummary::of).toList();
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(Json.pretty(DatasetJson.array(summaries)));
        } else {
            out.print(String.join("\n", summaries.stream().map(DatasetText::of).toList()));
        }
        out.flush();
        return 0;
    }
}
