package lungwort.quality;

import java.util.ArrayList;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.quality.Quality.Finding;

/** Judges whether a recording can be judged. */
public final class QualityCheck {
    /** Shorter recordings hold less than one slow breath, in seconds. */
    public static final double MIN_SECONDS = 3;

    /** A peak below this is no sound at all: two steps of 16 bits. */
    static final double SILENT_PEAK = 2.0 / 32768;

    /** Median level below which breath sound drowns in the steps of 16 bits, in dB re full scale. */
    static final double QUIET_DBFS = -75;

    /** Share of overdriven samples from which it is said. */
    static final double CLIPPED_SHARE = 0.0005;

    /** Share of overdriven samples from which the recording cannot be judged. */
    static final double CLIPPED_GRAVE_SHARE = 0.02;

    private QualityCheck() {}

    /** The verdict on a whole recording. */
    public static Quality check(Recording recording) {
        return judge(measure(recording));
    }

    /** The numbers of a whole recording. */
    public static QualityMeasures measure(Recording recording) {
        QualityMeter meter = new QualityMeter(recording.sampleRateHz());
        meter.push(recording.samples());
        return meter.measures();
    }

    /** The verdict that follows from numbers. */
    public static Quality judge(QualityMeasures m) {
        List<Finding> findings = new ArrayList<>();
        if (m.durationSeconds() < MIN_SECONDS) {
            findings.add(new Finding(
                    QualityIssue.TOO_SHORT,
                    true,
                    "%.1f s, at least %.0f s".formatted(m.durationSeconds(), MIN_SECONDS)));
        }
        if (m.peak() < SILENT_PEAK) {
            findings.add(new Finding(QualityIssue.SILENT, true, "no sample stands out of zero"));
        } else if (m.levelDbfs() < QUIET_DBFS) {
            findings.add(new Finding(
                    QualityIssue.TOO_QUIET, false, "level %.0f dB below full scale".formatted(-m.levelDbfs())));
        }
        if (m.clippedShare() >= CLIPPED_SHARE) {
            findings.add(new Finding(
                    QualityIssue.CLIPPED,
                    m.clippedShare() >= CLIPPED_GRAVE_SHARE,
                    "%.2f %% of samples cut off at %.2f of full scale".formatted(100 * m.clippedShare(), m.peak())));
        }
        findings.sort((a, b) -> Boolean.compare(b.grave(), a.grave()));
        return new Quality(findings.stream().noneMatch(Finding::grave), findings);
    }
}
