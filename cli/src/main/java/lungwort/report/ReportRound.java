package lungwort.report;

import java.util.List;
import lungwort.guidance.NextStep;
import lungwort.guidance.VitalLimit;
import lungwort.round.RoundView;

/**
 * One round in a report.
 *
 * @param view what the round says, without what was to be left out
 * @param step the next step as it was said when the round was finished, or as it is now while it is open
 * @param limits the limits on vital signs that hold for this person on that day
 * @param takes in the order of sites
 */
public record ReportRound(RoundView view, NextStep step, List<VitalLimit> limits, List<ReportTake> takes) {
    public ReportRound {
        limits = List.copyOf(limits);
        takes = List.copyOf(takes);
    }
}
