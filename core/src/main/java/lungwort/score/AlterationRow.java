package lungwort.score;

import java.util.Arrays;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.audio.MuLaw;
import lungwort.audio.Recording;
import lungwort.audio.Resampler;

/** One row of a robustness table: what is done to each recording before it is judged. */
public enum AlterationRow implements SoundChange {
    NONE("none", "as recorded"),
    EQUALISED("eq10", "random equalisation, +-10 dB at octave centres"),
    LOW_PASS_1000("lowpass1000", "low-pass at 1 kHz"),
    LOW_PASS_2000("lowpass2000", "low-pass at 2 kHz"),
    RATE_4000("rate4000", "resampled to 4 kHz"),
    RATE_44100("rate44100", "resampled to 44.1 kHz"),
    NOISE_20("noise20", "white noise 20 dB under the recording's level"),
    NOISE_10("noise10", "white noise 10 dB under the recording's level"),
    LOUDER("gain+20", "20 dB louder, without clipping"),
    SOFTER("gain-20", "20 dB softer"),
    TELEPHONE("phone", "telephone line: 8 kHz, 8 bits by the mu-law of ITU-T G.711");

    private final String id;
    private final String description;

    AlterationRow(String id, String description) {
        this.id = id;
        this.description = description;
    }

    @Override
    public String id() {
        return id;
    }

    /** What it does, for people. */
    public String description() {
        return description;
    }

    /** @throws BadInput if no row has that id */
    public static AlterationRow ofId(String id) {
        for (AlterationRow row : values()) {
            if (row.id.equals(id)) {
                return row;
            }
        }
        throw BadInput.of(
                "There is no alteration '%s'; use one of %s.",
                id, Arrays.stream(values()).map(AlterationRow::id).collect(Collectors.joining(", ")));
    }

    @Override
    public Recording apply(Recording r, long seed) {
        return switch (this) {
            case NONE -> r;
            case EQUALISED -> Alteration.equalised(r, seed);
            case LOW_PASS_1000 -> Alteration.lowPassed(r, 1000);
            case LOW_PASS_2000 -> Alteration.lowPassed(r, 2000);
            case RATE_4000 -> Resampler.toRate(r, 4000);
            case RATE_44100 -> Resampler.toRate(r, 44_100);
            case NOISE_20 -> Alteration.noisy(r, 20, seed);
            case NOISE_10 -> Alteration.noisy(r, 10, seed);
            case LOUDER -> scaled(r, 10);
            case SOFTER -> scaled(r, 0.1);
            case TELEPHONE -> MuLaw.roundTrip(r);
        };
    }

    private static Recording scaled(Recording r, double gain) {
        return r.with(Arrays.stream(r.samples()).map(v -> gain * v).toArray(), r.sampleRateHz());
    }
}
