package lungwort.quality;

/**
 * The same verdict on a growing recording: each sample is given once, in blocks of any length, and the verdict can be asked for at any time. Agrees exactly with
 * {@link QualityCheck#check} of the samples so far. Mutable, for one thread.
 *
 * <p>What is kept of each second are some thousand numbers, not the sound. Asking costs a look at all of them (some hundredths of a second for a minute of sound), so ask about once a
 * second.
 *
 * <pre>{@code
 * LiveQuality live = new LiveQuality(8000);
 * live.push(block);                       // as they come from the microphone
 * Quality soFar = live.quality();         // for example: press harder, be quieter
 * }</pre>
 */
public final class LiveQuality {
    private final QualityMeter meter;

    /** @param sampleRateHz samples a second, as {@link lungwort.audio.Recording} accepts */
    public LiveQuality(int sampleRateHz) {
        this.meter = new QualityMeter(sampleRateHz);
    }

    /** Takes the next samples, nominally in [-1, 1], any number of them; the array is only read. */
    public void push(double[] block) {
        meter.push(block);
    }

    /** The verdict on all samples so far. */
    public Quality quality() {
        return QualityCheck.judge(meter.measures());
    }

    /** The numbers of all samples so far. */
    public QualityMeasures measures() {
        return meter.measures();
    }
}
