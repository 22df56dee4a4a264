package lungwort.round;

import java.util.List;
import lungwort.guidance.Site;
import lungwort.guidance.TakeReason;

/**
 * The take that the round asks for next.
 *
 * @param site where
 * @param reason why
 * @param because why it is asked for, in plain words
 * @param instructions what to do, in order, in plain words
 */
public record Asked(Site site, TakeReason reason, String because, List<String> instructions) {
    public Asked {
        instructions = List.copyOf(instructions);
    }
}
