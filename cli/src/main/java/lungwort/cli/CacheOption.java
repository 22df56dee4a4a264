package lungwort.cli;

import java.nio.file.Path;
import lungwort.score.MeasureCache;
import lungwort.score.Measuring;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Where commands that train or score keep what they measured. */
final class CacheOption {
    @Option(
            names = "--cache",
            paramLabel = "DIR",
            description = {
                "Keep measured features there, and take them from there where sound, annotation and measuring code are the same.",
                "About 100 MB for SPRSound's training set; may be thrown away at any time."
            })
    private @Nullable Path folder;

    Measuring measuring(ProgressLine progress) {
        return new Measuring(progress, folder == null ? MeasureCache.NONE : MeasureCache.in(folder));
    }
}
