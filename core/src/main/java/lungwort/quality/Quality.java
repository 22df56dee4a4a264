package lungwort.quality;

import java.util.List;

/**
 * Whether a recording can be judged, and why not.
 *
 * @param usable false if no suggestion should be made from it
 * @param findings what was found, worst first
 */
public record Quality(boolean usable, List<Finding> findings) {
    public Quality {
        findings = List.copyOf(findings);
    }

    /**
     * One thing that was found.
     *
     * @param issue what
     * @param grave true if it alone makes the recording unusable
     * @param detail the measured value in words, for example "12 % of samples at full scale"
     */
    public record Finding(QualityIssue issue, boolean grave, String detail) {}
}
