package lungwort.quality;

/**
 * From where on each reason is given, and from where it makes a recording unusable ({@code GRAVE}). Common practice [C]; the limits on breath depth, level, touches and talking were set so that
 * few of the recordings that SPRSound's annotators could judge are refused.
 */
final class QualityLimits {
    /** Shorter recordings hold less than one slow breath, in seconds. */
    static final double MIN_SECONDS = 3;

    /** A peak below this is no sound at all: two steps of 16 bits. */
    static final double SILENT_PEAK = 2.0 / 32768;

    /** Share of the recording that stands still from which it is silent. */
    static final double SILENT_SHARE = 0.9;

    /** Median level below which breath sound drowns in the steps of 16 bits, in dB re full scale. */
    static final double QUIET_DBFS = -63;

    /** Share of overdriven samples. */
    static final double CLIPPED_SHARE = 0.002;

    static final double CLIPPED_GRAVE_SHARE = 0.1;

    /** Share of samples in dropouts. */
    static final double DROPOUT_SHARE = 0.03;

    static final double DROPOUT_GRAVE_SHARE = 0.3;

    /** Prominence of the second strongest mains line, in dB. */
    static final double HUM_DB = 12;

    /** Upper end of what was recorded, in Hz: crackles and high wheezes need more than the first, even rhonchi more than the second. */
    static final double BAND_HZ = 1800;

    static final double BAND_GRAVE_HZ = 450;

    /** Share of the time with talk. */
    static final double SPEECH_SHARE = 0.1;

    static final double SPEECH_GRAVE_SHARE = 0.4;

    /** Touches a minute. */
    static final double TOUCHES = 30;

    static final double TOUCHES_GRAVE = 120;

    /** Share of the time with rubbing. */
    static final double RUB_SHARE = 0.08;

    static final double RUB_GRAVE_SHARE = 0.25;

    /** How far the body's low rumble falls when the chest piece leaves it, in dB, and share of the time in which it is off. */
    static final double LIFTED_DB = 22;

    static final double LIFTED_SHARE = 0.25;

    static final double LIFTED_GRAVE_SHARE = 0.5;

    /** Share of the time with tones. Never grave: a very wheezy chest comes near it, and must not be refused. */
    static final double TONAL_SHARE = 0.65;

    /** How far the noise moves against the breath, in dB. */
    static final double GAIN_RIDE_DB = -6;

    /** Depth of sudden falls of everything, in dB. */
    static final double GATE_DB = 12;

    /** How far breath stands out, in dB: below the first it is faint, below the second it cannot be told from chance. */
    static final double FAINT_BREATH_DB = 5;

    static final double NO_BREATH_DB = 2.5;

    /** Where breath is faint and the soft moments are louder than this, noise is the reason; in dB re full scale. */
    static final double NOISE_FLOOR_DBFS = -47;

    /** Where breath is faint, the heart is the reason if it is this sure and this much louder, in dB. */
    static final double HEART_CONFIDENCE = 0.5;

    static final double HEART_OVER_BREATH_DB = 15;

    /** Fewer whole breaths than this are too few. */
    static final int MIN_BREATHS = 2;

    private QualityLimits() {}
}
