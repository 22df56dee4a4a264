package lungwort.audio;

import static lungwort.golden.Differences.worst;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.golden.Sounds;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** WAV as ffmpeg writes it (tests/golden/make_sounds.py), and by hand as recorders and databases get it wrong. */
class WavReaderTest {
    private static final double STEP_16 = 1 / 32_768.0;

    static Stream<Sounds> files() {
        return Sounds.ending(".wav").filter(file -> !file.container().equals("ffmpeg"));
    }

    private static Recording read(byte[] content) {
        return RecordingReader.read(content, "chest.wav");
    }

    @ParameterizedTest
    @MethodSource("files")
    void holdsWhatFfmpegStored(Sounds file) {
        Recording recording = RecordingReader.read(file.path());
        assertThat(worst(recording.samples(), file.truthMean())).isLessThanOrEqualTo(file.rounding());
        assertThat(recording.sampleRateHz()).isEqualTo(file.rateHz());
        assertThat(recording.origin()).isEqualTo(file.toString());
        SourceFormat source = recording.source();
        assertThat(source.container()).isEqualTo(file.container());
        assertThat(source.encoding()).isEqualTo(file.encoding());
        assertThat(source.bitsPerSample()).isEqualTo(file.bits());
        assertThat(source.channels()).isEqualTo(file.channels());
        assertThat(source.remarks()).hasSize(file.channels() == 1 ? 0 : 1);
    }

    @ParameterizedTest
    @MethodSource("files")
    void leftAndRightAreTheFirstTwoChannels(Sounds file) {
        for (var side : new ReadingOptions.Channels[] {ReadingOptions.Channels.LEFT, ReadingOptions.Channels.RIGHT}) {
            int channel = side == ReadingOptions.Channels.LEFT ? 0 : Math.min(1, file.channels() - 1);
            Recording recording = RecordingReader.read(file.path(), new ReadingOptions(side));
            assertThat(worst(recording.samples(), file.truth(channel))).isLessThanOrEqualTo(file.rounding());
        }
    }

    @Test
    void blockAlignIsNotTrusted() {
        // SPRSound's headers (REFERENCE.md section 5): 8 kHz, 16-bit, mono, block align 4.
        byte[] file = new WavBytes("RIFF")
                .format(1, 1, 8_000, 4, 16)
                .data(8, 1, 2, -3, 4)
                .bytes();
        assertThat(read(file).samples()).containsExactly(STEP_16, 2 * STEP_16, -3 * STEP_16, 4 * STEP_16);
    }

    @ParameterizedTest
    @ValueSource(longs = {0, 0xFFFF_FFFFL})
    void aLengthLeftOpenByAStreamMeansTheRest(long declared) {
        byte[] file = WavBytes.pcm(1, 8_000, 16).data(declared, 1, 2, 3).bytes();
        Recording recording = read(file);
        assertThat(recording.samples()).containsExactly(STEP_16, 2 * STEP_16, 3 * STEP_16);
        assertThat(recording.source().remarks()).isEmpty();
    }

    @Test
    void aLengthOfZeroBeforeAnotherChunkIsNoSound() {
        byte[] file = WavBytes.pcm(1, 8_000, 16)
                .data(0)
                .chunk("LIST", new byte[] {1, 2, 3, 4})
                .bytes();
        assertThatThrownBy(() -> read(file)).isInstanceOf(BadInput.class).hasMessageContaining("it holds no sound");
    }

    @Test
    void chunksBeforeAndAfterTheSoundAreSteppedOverPaddedOrNot() {
        WavBytes padded = new WavBytes("RIFF")
                .chunk("junk", new byte[3])
                .raw(new byte[1])
                .format(1, 1, 8_000, 2, 16)
                .chunk("LIST", new byte[5])
                .raw(new byte[1])
                .data(4, 7, 8)
                .chunk("bext", new byte[10]);
        WavBytes unpadded = new WavBytes("RIFF")
                .chunk("junk", new byte[3])
                .format(1, 1, 8_000, 2, 16)
                .chunk("LIST", new byte[5])
                .data(4, 7, 8)
                .chunk("bext", new byte[10]);
        assertThat(read(padded.bytes()).samples()).containsExactly(7 * STEP_16, 8 * STEP_16);
        assertThat(read(unpadded.bytes()).samples()).containsExactly(7 * STEP_16, 8 * STEP_16);
    }

    @Test
    void theFormatMayFollowTheSound() {
        byte[] file =
                new WavBytes("RIFF").data(4, 7, 8).format(1, 1, 8_000, 2, 16).bytes();
        assertThat(read(file).samples()).containsExactly(7 * STEP_16, 8 * STEP_16);
    }

    @Test
    void rf64TakesItsLengthFromDs64() {
        // EBU Tech 3306: riffSize, dataSize, sampleCount, tableLength.
        byte[] file = new WavBytes("RF64")
                .text("ds64")
                .u32(28)
                .u64(0)
                .u64(4)
                .u64(2)
                .u32(0)
                .format(1, 1, 8_000, 2, 16)
                .data(0xFFFF_FFFFL, 7, 8)
                .u16(9)
                .bytes();
        Recording recording = read(file);
        assertThat(recording.samples()).containsExactly(7 * STEP_16, 8 * STEP_16);
        assertThat(recording.source().container()).isEqualTo("RF64");
    }

    @Test
    void aCutFileKeepsItsWholeFramesAndSaysHowMuchIsMissing() {
        byte[] file = WavBytes.pcm(1, 1_000, 16)
                .data(4_000, new int[1_000])
                .raw(new byte[] {1})
                .bytes();
        Recording recording = read(file);
        assertThat(recording.length()).isEqualTo(1_000);
        assertThat(recording.source().remarks())
                .containsExactly("The file is cut: 1.0 s of the 2.0 s it should hold are there.");
    }

    @Test
    void channelsThatCancelGiveTheLeftOneAndARemark() {
        byte[] file = WavBytes.pcm(2, 8_000, 16).data(8, 1000, -1000, -500, 500).bytes();
        Recording recording = read(file);
        assertThat(recording.samples()).containsExactly(1000 * STEP_16, -500 * STEP_16);
        assertThat(recording.source().remarks())
                .containsExactly("Its channels cancel each other when averaged, so the left one was taken.");
    }

    @Test
    void aSilentSecondChannelHalvesTheMeanAndNothingMore() {
        byte[] file = WavBytes.pcm(2, 8_000, 16).data(8, 1000, 0, -500, 0).bytes();
        assertThat(read(file).samples()).containsExactly(500 * STEP_16, -250 * STEP_16);
    }

    @ParameterizedTest
    @CsvSource({
        "1, 1, 8000, 0, '0 bits a sample'",
        "1, 1, 8000, 33, '33 bits a sample'",
        "3, 1, 8000, 16, '16 bits a sample'",
        "7, 1, 8000, 8, 'encoding 0x7 cannot be read'",
        "1, 0, 8000, 16, '0 channels'",
        "1, 65535, 8000, 16, '65535 channels'",
        "1, 1, 0, 16, 'sample rate of 0 Hz'",
        "1, 1, -1, 16, 'sample rate of 2147483647 Hz'"
    })
    void anImpossibleHeaderIsASentence(int tag, int channels, int rateHz, int bits, String part) {
        byte[] file = new WavBytes("RIFF")
                .format(tag, channels, rateHz, 2, bits)
                .data(4, 7, 8)
                .bytes();
        assertThatThrownBy(() -> read(file))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("chest.wav: ")
                .hasMessageContaining(part);
    }

    @Test
    void aFloatThatIsNoNumberIsASentenceWithItsTime() {
        byte[] nan = new WavBytes("RIFF")
                .format(3, 1, 1_000, 4, 32)
                .text("data")
                .u32(8)
                .u32(0)
                .u32(Float.floatToRawIntBits(Float.NaN))
                .bytes();
        assertThatThrownBy(() -> read(nan)).isInstanceOf(BadInput.class).hasMessageContaining("0.001 s");
    }

    @Test
    void headersWithoutFormatOrSoundAreSentences() {
        assertThatThrownBy(() -> read(new WavBytes("RIFF").data(4, 7, 8).bytes()))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("does not say how the sound is stored");
        assertThatThrownBy(() -> read(WavBytes.pcm(1, 8_000, 16).bytes()))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no sound");
    }

    @Test
    void moreThanTenMinutesIsRefused() {
        byte[] long16 =
                WavBytes.pcm(1, 1_000, 8).chunk("data", new byte[600_001]).bytes();
        byte[] justFits =
                WavBytes.pcm(1, 1_000, 8).chunk("data", new byte[600_000]).bytes();
        assertThat(read(justFits).durationSeconds()).isEqualTo(600);
        assertThatThrownBy(() -> read(long16))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("longer than the 10 minutes");
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 7, 8, 12, 16, 20, 24, 28, 32})
    void fullScaleIsMinusOneForEveryNumberOfBits(int bits) {
        int bytes = (bits + 7) / 8;
        byte[] lowest = new byte[bytes];
        if (bytes > 1) {
            lowest[bytes - 1] = (byte) 0x80;
        }
        byte[] file = WavBytes.pcm(1, 8_000, bits).chunk("data", lowest).bytes();
        assertThat(read(file).samples()).containsExactly(-1);
    }
}
