package lungwort.cli;

import java.nio.file.Path;
import java.util.function.Function;
import lungwort.audio.Recording;
import lungwort.examine.Examination;
import org.jspecify.annotations.Nullable;

/** Makes the examining of recordings from a model file; tests put in an invented one. */
interface Examining {
    /** @param model a model file, or null for the one that comes with Lungwort */
    Function<Recording, Examination> with(@Nullable Path model);
}
