package lungwort.decode;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.golden.Sounds;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What phones and browsers write, as ffmpeg encodes it (tests/golden/make_sounds.py), against the sound that was encoded. */
class DecodersTest {
    private static final ReadingOptions LEFT = new ReadingOptions(ReadingOptions.Channels.LEFT);

    /** What codecs themselves shift the sound by: 0.06 ms in Opus' speech mode. */
    private static final int MAX_CODEC_DELAY_FRAMES = 3;

    static Stream<Sounds> files() {
        return Stream.of(".m4a", ".mp4", ".aac", ".mp3", ".ogg", ".opus", ".webm")
                .flatMap(Sounds::ending)
                .filter(file -> !file.container().equals("ffmpeg"));
    }

    private static Sounds file(String name) {
        return Sounds.ending(name).findFirst().orElseThrow();
    }

    @ParameterizedTest
    @MethodSource("files")
    void holdsTheSoundThatWasEncoded(Sounds file) {
        Recording recording = RecordingReader.read(file.path(), LEFT);
        assertThat(recording.sampleRateHz()).isEqualTo(file.rateHz());
        assertThat(recording.source().container()).isEqualTo(file.container());
        assertThat(recording.source().encoding()).isEqualTo(file.encoding());
        assertThat(recording.source().channels()).isEqualTo(file.channels());
        assertThat(recording.source().remarks()).isEmpty();
        Fit fit = Fit.best(recording.samples(), file.truth(0), delayFrames(file), MAX_CODEC_DELAY_FRAMES);
        // The MP3 encoder turns everything down by 5 %; none of them is exact. Decoded by ffmpeg, the same files are as
        // far off (-24 to -49 dB).
        assertThat(fit.gain()).isCloseTo(1, within(0.06));
        assertThat(fit.errorDb()).isLessThan(-24);
    }

    @ParameterizedTest
    @MethodSource("files")
    void startsAndEndsWhereTheSoundDoes(Sounds file) {
        Recording recording = RecordingReader.read(file.path(), LEFT);
        Fit fit = Fit.best(recording.samples(), file.truth(0), delayFrames(file), 200);
        assertThat((double) fit.delay()).isCloseTo(delayFrames(file), within((double) MAX_CODEC_DELAY_FRAMES));
        int padding = delayFrames(file) == 0 ? 0 : recording.length() - file.frames();
        assertThat(recording.length()).isEqualTo(file.frames() + padding);
        assertThat(padding).isLessThan(2_048);
    }

    /** Bare and fragmented AAC say nothing about the encoder's delay of one frame. */
    private static int delayFrames(Sounds file) {
        return file.container().equals("ADTS") || file.toString().startsWith("fragmented") ? 1_024 : 0;
    }

    @Test
    void stereoIsAveragedUnlessAskedOtherwise() {
        Sounds file = file("stereo-vorbis.ogg");
        Recording mean = RecordingReader.read(file.path());
        assertThat(Fit.of(mean.samples(), file.truthMean(), 0).errorDb()).isLessThan(-30);
        Recording right = RecordingReader.read(file.path(), new ReadingOptions(ReadingOptions.Channels.RIGHT));
        assertThat(Fit.of(right.samples(), file.truth(1), 0).errorDb()).isLessThan(-30);
    }

    @ParameterizedTest
    @CsvSource({
        "phone-stereo.m4a, 0.75",
        "bare.aac, 0.75",
        "mono.mp3, 0.75",
        // Three quarters of so short a Vorbis file are its code books.
        "mono-vorbis.ogg, 0.95",
        "mono.opus, 0.75",
        "browser.webm, 0.75",
        "browser-live.webm, 0.75"
    })
    void aCutFileKeepsWhatIsThereAndSaysSo(String name, double part) {
        Sounds file = file(name);
        byte[] content = file.bytes();
        Recording recording =
                RecordingReader.read(Arrays.copyOf(content, (int) (content.length * part)), "chest", LEFT);
        assertThat(recording.length()).isBetween(file.frames() / 4, file.frames());
        assertThat(recording.source().remarks()).singleElement().asString().startsWith("The file is cut: ");
    }

    @Test
    void aRecordingThatWasNeverEndedIsASentence() {
        // The tables of phone.m4a stand behind the sound.
        byte[] content = file("phone.m4a").bytes();
        assertThatThrownBy(() -> RecordingReader.read(Arrays.copyOf(content, content.length / 2), "chest.m4a"))
                .isInstanceOf(BadInput.class)
                .hasMessage("chest.m4a: this M4A file is damaged and cannot be read; copy it again or record again.");
    }

    @ParameterizedTest
    @CsvSource({"lossless.m4a", "old.aiff"})
    void whatNoLibraryDecodesGoesToFfmpeg(String name) {
        skipAloudWithoutFfmpeg(name);
        Sounds file = file(name);
        Recording recording = RecordingReader.read(file.path());
        assertThat(recording.length()).isEqualTo(file.frames());
        assertThat(Fit.of(recording.samples(), file.truth(0), 0).errorDb()).isLessThan(-80);
        assertThat(recording.source().container()).isEqualTo("ffmpeg");
    }

    private static void skipAloudWithoutFfmpeg(String name) {
        boolean there = Ffmpeg.find(System.getenv().getOrDefault("PATH", "")).isPresent();
        if (!there) {
            System.out.println("Skipped reading " + name + " by ffmpeg: ffmpeg is not installed here.");
        }
        Assumptions.assumeTrue(there);
    }

    /** What telephones store is a WAV that the reader of WAV leaves. G.711's 8 bits are sure to about 38 dB. */
    @Test
    void aWavOfATelephoneGoesToFfmpegToo() {
        Sounds file = file("telephone-alaw.wav");
        skipAloudWithoutFfmpeg(file.toString());
        Recording recording = RecordingReader.read(file.path());
        assertThat(recording.source().container()).isEqualTo("ffmpeg");
        assertThat(recording.sampleRateHz()).isEqualTo(8000);
        assertThat(recording.length()).isEqualTo(file.frames());
        Fit fit = Fit.of(recording.samples(), file.truth(0), 0);
        assertThat(fit.gain()).isCloseTo(1, within(0.01));
        assertThat(fit.errorDb()).isLessThan(-32);
    }

    @Test
    void withoutFfmpegAWavOfATelephoneIsASentence() {
        byte[] content = file("telephone-alaw.wav").bytes();
        assertThatThrownBy(() ->
                        Ffmpeg.decodeOrRefuse(content, "chest.wav", LEFT, FfmpegDecoder.problem(content), "/nowhere"))
                .isInstanceOf(BadInput.class)
                .hasMessage(
                        "chest.wav: this kind of WAV (not PCM, as telephones store it) cannot be read without the program ffmpeg, which is not installed;"
                                + " install it, or save the recording as 16-bit PCM WAV.");
    }

    @Test
    void withoutFfmpegThatIsASentence() {
        byte[] content = file("lossless.m4a").bytes();
        assertThatThrownBy(() -> Ffmpeg.decodeOrRefuse(content, "chest.m4a", LEFT, "its sound (alac)", "/nowhere"))
                .isInstanceOf(BadInput.class)
                .hasMessage(
                        "chest.m4a: its sound (alac) cannot be read without the program ffmpeg, which is not installed;"
                                + " install it, or save the recording as 16-bit PCM WAV.");
    }

    /**
     * How far a decoded sound is from the one encoded.
     *
     * @param delay of the decoded sound, in frames
     * @param gain by which the truth must be multiplied to come nearest
     * @param errorDb what is left then, against the truth
     */
    private record Fit(int delay, double gain, double errorDb) {
        static Fit best(double[] decoded, double[] truth, int around, int reach) {
            return IntStream.rangeClosed(around - reach, around + reach)
                    .mapToObj(delay -> of(decoded, truth, delay))
                    .min(Comparator.comparingDouble(Fit::errorDb))
                    .orElseThrow();
        }

        static Fit of(double[] decoded, double[] truth, int delay) {
            double cross = 0;
            double power = 0;
            double decodedPower = 0;
            for (int i = 0; i < truth.length; i++) {
                int at = i + delay;
                double value = at >= 0 && at < decoded.length ? decoded[at] : 0;
                cross += value * truth[i];
                power += truth[i] * truth[i];
                decodedPower += value * value;
            }
            double gain = cross / power;
            double left = decodedPower - gain * cross;
            return new Fit(delay, gain, 10 * Math.log10(Math.max(1e-30, left / power)));
        }
    }
}
