package lungwort.quality;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.breath.Breathing;
import lungwort.quality.Quality.Finding;

/**
 * Judges whether a recording can be judged.
 *
 * <pre>{@code
 * Quality quality = QualityCheck.check(recording);
 * for (Quality.Finding finding : quality.findings()) {
 *     System.out.println(finding.issue().reason() + " " + finding.issue().remedy());
 * }
 * }</pre>
 */
public final class QualityCheck {
    private final QualityMeasures m;
    private final List<Finding> findings = new ArrayList<>();

    private QualityCheck(QualityMeasures measures) {
        this.m = measures;
    }

    /** The verdict on a whole recording of any length; the same as {@link LiveQuality} gives of the same samples. */
    public static Quality check(Recording recording) {
        return judge(measure(recording));
    }

    /**
     * The same verdict, for those who have tracked the breaths already: tracking is most of the work.
     *
     * @param breathing what {@link lungwort.breath.BreathTracker#track(Recording)} gives of the same recording
     */
    public static Quality check(Recording recording, Breathing breathing) {
        return judge(measure(recording, breathing));
    }

    /** The numbers of a whole recording whose breaths have been tracked already. */
    public static QualityMeasures measure(Recording recording, Breathing breathing) {
        QualityMeter meter = new QualityMeter(recording.sampleRateHz());
        recording.inBlocks(meter::push);
        return meter.measures(breathing);
    }

    /** The numbers of a whole recording. */
    public static QualityMeasures measure(Recording recording) {
        QualityMeter meter = new QualityMeter(recording.sampleRateHz());
        recording.inBlocks(meter::push);
        return meter.measures();
    }

    /** The verdict that follows from numbers. */
    public static Quality judge(QualityMeasures measures) {
        QualityCheck check = new QualityCheck(measures);
        check.length();
        if (check.silent()) {
            check.add(QualityIssue.SILENT, true, "no sample stands out of zero");
        } else {
            check.signal();
            check.disturbances();
            check.device();
            check.breath();
        }
        check.findings.sort(Comparator.comparing(Finding::grave).reversed());
        boolean usable = check.findings.stream().noneMatch(Finding::grave);
        return new Quality(usable, check.findings, measures.coughs());
    }

    private void add(QualityIssue issue, boolean grave, String detail, Object... numbers) {
        findings.add(new Finding(issue, grave, String.format(java.util.Locale.ROOT, detail, numbers)));
    }

    private void length() {
        if (m.durationSeconds() < QualityLimits.MIN_SECONDS) {
            add(
                    QualityIssue.TOO_SHORT,
                    true,
                    "%.1f s, at least %.0f s",
                    m.durationSeconds(),
                    QualityLimits.MIN_SECONDS);
        }
    }

    private boolean silent() {
        return m.peak() < QualityLimits.SILENT_PEAK || m.standingShare() > QualityLimits.SILENT_SHARE;
    }

    private void signal() {
        if (m.clippedShare() >= QualityLimits.CLIPPED_SHARE) {
            boolean grave = m.clippedShare() >= QualityLimits.CLIPPED_GRAVE_SHARE;
            add(
                    QualityIssue.CLIPPED,
                    grave,
                    "%.1f %% of samples cut off at %.0f %% of full scale",
                    100 * m.clippedShare(),
                    100 * m.peak());
        }
        if (hasDropouts()) {
            boolean grave = m.standingShare() >= QualityLimits.DROPOUT_GRAVE_SHARE;
            add(QualityIssue.DROPOUTS, grave, "%d gaps, %.0f %% of the time", m.dropouts(), 100 * m.standingShare());
        }
        if (m.humDb() >= QualityLimits.HUM_DB) {
            add(QualityIssue.HUM, false, "%d Hz, %.0f dB over what is beside it", m.humHz(), m.humDb());
        }
    }

    private boolean hasDropouts() {
        return m.standingShare() >= QualityLimits.DROPOUT_SHARE;
    }

    private void disturbances() {
        if (m.speechShare() >= QualityLimits.SPEECH_SHARE) {
            boolean grave = m.speechShare() >= QualityLimits.SPEECH_GRAVE_SHARE;
            add(QualityIssue.TALKING, grave, "%.0f %% of the time", 100 * m.speechShare());
        }
        if (m.rubShare() >= QualityLimits.RUB_SHARE) {
            boolean grave = m.rubShare() >= QualityLimits.RUB_GRAVE_SHARE;
            add(QualityIssue.FRICTION, grave, "%.0f %% of the time", 100 * m.rubShare());
        }
        if (m.touchesPerMinute() >= QualityLimits.TOUCHES) {
            boolean grave = m.touchesPerMinute() >= QualityLimits.TOUCHES_GRAVE;
            add(QualityIssue.HANDLING, grave, "%.0f touches a minute", m.touchesPerMinute());
        }
        if (m.liftedShare() >= QualityLimits.LIFTED_SHARE) {
            boolean grave = m.liftedShare() >= QualityLimits.LIFTED_GRAVE_SHARE;
            add(QualityIssue.LIFTED, grave, "%.0f %% of the time", 100 * m.liftedShare());
        }
        if (m.tonalShare() >= QualityLimits.TONAL_SHARE) {
            add(
                    QualityIssue.NOISY,
                    false,
                    "tones fill %.0f %% of the time, as of music or a machine",
                    100 * m.tonalShare());
        }
    }

    private boolean disturbed() {
        return m.speechShare() >= QualityLimits.SPEECH_SHARE
                || m.rubShare() > 0
                || m.touchesPerMinute() >= QualityLimits.TOUCHES
                || !m.coughs().isEmpty()
                || hasDropouts();
    }

    private void device() {
        if (m.bandLimitHz() < QualityLimits.BAND_HZ) {
            add(
                    QualityIssue.BAND_LIMITED,
                    m.bandLimitHz() < QualityLimits.BAND_GRAVE_HZ,
                    "nothing above %.0f Hz",
                    m.bandLimitHz());
        }
        // What knocks and talks moves all bands at once, as a change of gain does.
        if (m.gainRideDb() <= QualityLimits.GAIN_RIDE_DB && !disturbed()) {
            add(QualityIssue.AUTOMATIC_GAIN, false, "the noise sinks by %.0f dB when breath comes", -m.gainRideDb());
        }
        if (m.gateDb() >= QualityLimits.GATE_DB && !disturbed()) {
            add(QualityIssue.NOISE_SUPPRESSED, false, "everything falls by %.0f dB at once", m.gateDb());
        }
    }

    private void breath() {
        boolean faint = m.breathDepthDb() < QualityLimits.FAINT_BREATH_DB;
        if (m.levelDbfs() < QualityLimits.QUIET_DBFS) {
            add(QualityIssue.TOO_QUIET, faint, "level %.0f dB below full scale", -m.levelDbfs());
        } else if (faint) {
            boolean grave = m.breathDepthDb() < QualityLimits.NO_BREATH_DB;
            add(whyFaint(grave), grave, "breath stands %.1f dB out of the rest", Math.max(0, m.breathDepthDb()));
        }
        boolean heard = m.breathDepthDb() >= QualityLimits.NO_BREATH_DB;
        if (heard && m.breaths() < QualityLimits.MIN_BREATHS) {
            add(QualityIssue.TOO_FEW_BREATHS, false, "%d whole", m.breaths());
        }
    }

    private QualityIssue whyFaint(boolean grave) {
        if (m.heartConfidence() >= QualityLimits.HEART_CONFIDENCE
                && m.heartOverBreathDb() >= QualityLimits.HEART_OVER_BREATH_DB) {
            return QualityIssue.MOSTLY_HEART;
        }
        boolean loud = m.floorDbfs() > QualityLimits.NOISE_FLOOR_DBFS;
        return loud || !grave ? QualityIssue.NOISY : QualityIssue.NO_BREATH;
    }
}
