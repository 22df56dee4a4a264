package lungwort.signal;

import java.util.function.Supplier;
import lungwort.audio.Recording;
import lungwort.audio.Resampler;
import org.jspecify.annotations.Nullable;

/**
 * The views of one recording that all measurements share: each is made when it is first asked for, once, and is then only read. Safe to share between threads.
 *
 * <p>Two rates: {@value #RATE_HZ} Hz for everything that is heard as pitch or level (wheezes and rhonchi of chest recordings lie below 2 kHz, and it is what the narrowest devices
 * give), {@value #CRACKLE_RATE_HZ} Hz for the shape of crackles, whose first deflections last about 1 ms. All views start at the recording's time 0.
 *
 * <p>The arrays returned are the views' own, not copies: read them, never write to them.
 */
public final class ChestViews {
    /** Analysis rate in Hz. */
    public static final int RATE_HZ = 4000;

    /** Rate for the shape of crackles, in Hz. */
    public static final int CRACKLE_RATE_HZ = 8000;

    /** Lower edge of the measured band, in Hz: CORSA's high-pass of about 60 Hz (from memory [M]). */
    public static final double LOW_HZ = 60;

    /** Lower edge for crackles, in Hz: low enough to leave a coarse crackle its shape, high enough to lower heart sounds (common practice [C]). */
    public static final double CRACKLE_LOW_HZ = 80;

    /** Long window, for pitch: 128 ms every 16 ms, padded to 256 ms (bins of 3.9 Hz). */
    public static final int LONG_FRAME = 512;

    public static final int LONG_HOP = 64;
    public static final int LONG_FFT = 1024;

    /** Middle window, for short and gliding tones: 64 ms every 16 ms, padded to 128 ms (bins of 7.8 Hz). */
    public static final int MIDDLE_FRAME = 256;

    public static final int MIDDLE_HOP = 64;
    public static final int MIDDLE_FFT = 512;

    /** Short window, for transients: 16 ms every 4 ms, padded to 32 ms. */
    public static final int SHORT_FRAME = 64;

    public static final int SHORT_HOP = 16;
    public static final int SHORT_FFT = 128;

    private final Recording recording;
    private final Once<double[]> plain;
    private final Once<double[]> analysis;
    private final Once<double[]> crackle;
    private final Once<Spectrogram> longWindow;
    private final Once<Spectrogram> middleWindow;
    private final Once<Spectrogram> shortWindow;

    private ChestViews(Recording recording) {
        this.recording = recording;
        plain = new Once<>(() -> resampled(RATE_HZ));
        analysis = new Once<>(() -> Butterworth.highPass(4, LOW_HZ, RATE_HZ).filtFilt(plain()));
        crackle = new Once<>(
                () -> Butterworth.highPass(2, CRACKLE_LOW_HZ, CRACKLE_RATE_HZ).filtFilt(resampled(CRACKLE_RATE_HZ)));
        longWindow = new Once<>(() -> Spectrogram.of(analysis(), RATE_HZ, LONG_FRAME, LONG_HOP, LONG_FFT));
        middleWindow = new Once<>(() -> Spectrogram.of(analysis(), RATE_HZ, MIDDLE_FRAME, MIDDLE_HOP, MIDDLE_FFT));
        shortWindow = new Once<>(() -> Spectrogram.of(analysis(), RATE_HZ, SHORT_FRAME, SHORT_HOP, SHORT_FFT));
    }

    /** Views of a recording of any length and rate; nothing is computed yet. */
    public static ChestViews of(Recording recording) {
        return new ChestViews(recording);
    }

    /** The recording itself. */
    public Recording recording() {
        return recording;
    }

    /** Length in seconds. */
    public double durationSeconds() {
        return recording.durationSeconds();
    }

    /** Mean removed, at {@value #RATE_HZ} Hz, no filter but the resampler's: for levels, hum, heart sounds. */
    public double[] plain() {
        return plain.get();
    }

    /** As {@link #plain} and high-passed at {@value #LOW_HZ} Hz without delay (Butterworth of order 4, both ways): what is measured. */
    public double[] analysis() {
        return analysis.get();
    }

    /** Mean removed, at {@value #CRACKLE_RATE_HZ} Hz, high-passed at {@value #CRACKLE_LOW_HZ} Hz without delay (order 2, both ways): for crackles. */
    public double[] crackle() {
        return crackle.get();
    }

    /** Spectrogram of {@link #analysis} with the long window; no frame if the recording is shorter than one. */
    public Spectrogram longWindow() {
        return longWindow.get();
    }

    /** Spectrogram of {@link #analysis} with the middle window; no frame if the recording is shorter than one. */
    public Spectrogram middleWindow() {
        return middleWindow.get();
    }

    /** Spectrogram of {@link #analysis} with the short window; no frame if the recording is shorter than one. */
    public Spectrogram shortWindow() {
        return shortWindow.get();
    }

    private double[] resampled(int rateHz) {
        return Resampler.withoutMean(recording, rateHz);
    }

    private static final class Once<T> {
        private final Supplier<T> maker;
        private volatile @Nullable T value;

        Once(Supplier<T> maker) {
            this.maker = maker;
        }

        T get() {
            T made = value;
            if (made == null) {
                synchronized (this) {
                    made = value;
                    if (made == null) {
                        made = maker.get();
                        value = made;
                    }
                }
            }
            return made;
        }
    }
}
