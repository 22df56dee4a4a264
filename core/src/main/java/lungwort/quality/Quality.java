package lungwort.quality;

import java.util.List;

/**
 * Whether a recording can be judged, and why not.
 *
 * @param usable false if no suggestion should be made from it
 * @param findings what was found, worst first
 * @param events what happened in it that is no fault, in order of time
 */
public record Quality(boolean usable, List<Finding> findings, List<Event> events) {
    public Quality {
        findings = List.copyOf(findings);
        events = List.copyOf(events);
    }

    /** Without events. */
    public Quality(boolean usable, List<Finding> findings) {
        this(usable, findings, List.of());
    }

    /** True if a finding names this issue, grave or not. */
    public boolean has(QualityIssue issue) {
        return findings.stream().anyMatch(finding -> finding.issue() == issue);
    }

    /**
     * One thing that was found.
     *
     * @param issue what
     * @param grave true if it alone makes the recording unusable
     * @param detail the measured value in words, for example "12 % of samples at full scale"
     */
    public record Finding(QualityIssue issue, boolean grave, String detail) {}

    /**
     * Something that happened and is no fault of the recording.
     *
     * @param kind what
     * @param startSeconds start within the recording, in seconds
     * @param endSeconds end, in seconds, after the start
     */
    public record Event(EventKind kind, double startSeconds, double endSeconds) {}

    /** Kinds of {@link Event}. */
    public enum EventKind {
        COUGH
    }
}
