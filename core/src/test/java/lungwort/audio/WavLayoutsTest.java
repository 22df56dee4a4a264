package lungwort.audio;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.time.Duration;
import java.util.Arrays;
import java.util.Random;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * WAV files laid out at random. Right ones, in every way that the standards allow (RIFF; WAVE_FORMAT_EXTENSIBLE; RF64, EBU Tech 3306; BW64, ITU-R BS.2088), give the samples that were
 * put in; wrong ones give a recording or one sentence, soon, and never another exception.
 */
class WavLayoutsTest {
    private static final int RIGHT = 400;
    private static final int WRONG = 20_000;

    /** The length a writer gives that does not know it yet, or gives in the 64-bit chunk. */
    private static final long UNKNOWN = 0xFFFF_FFFFL;

    private record Encoding(int tag, int bits) {
        int bytes() {
            return bits / 8;
        }
    }

    private static final Encoding[] ENCODINGS = {
        new Encoding(1, 8),
        new Encoding(1, 16),
        new Encoding(1, 24),
        new Encoding(1, 32),
        new Encoding(3, 32),
        new Encoding(3, 64)
    };

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void everyAllowedLayoutGivesTheSamplesThatWerePutIn(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < RIGHT; i++) {
            Encoding encoding = ENCODINGS[random.nextInt(ENCODINGS.length)];
            int channels = 1 + random.nextInt(3);
            double[] samples = random.doubles((long) channels * (1 + random.nextInt(200)), -1, 1)
                    .toArray();
            byte[] file = laidOut(random, encoding, channels, samples);

            Recording read = RecordingReader.read(file, "right");

            String what = "seed %d, file %d, %s, %d channels".formatted(seed, i, encoding, channels);
            assertThat(read.length()).as(what).isEqualTo(samples.length / channels);
            // Half a step of the encoding, and what half a step at the top is clipped to.
            double step = encoding.tag == 3 ? 1e-7 : Math.pow(2, 1 - encoding.bits);
            for (int f = 0; f < read.length(); f++) {
                double mean = Arrays.stream(samples, f * channels, (f + 1) * channels)
                        .average()
                        .orElseThrow();
                assertThat(read.sample(f)).as(what).isCloseTo(mean, within(step));
            }
        }
    }

    private static byte[] laidOut(Random random, Encoding encoding, int channels, double[] samples) {
        String form = new String[] {"RIFF", "RF64", "BW64"}[random.nextInt(3)];
        boolean long64 = !form.equals("RIFF");
        WavBytes out = new WavBytes(form);
        int dataBytes = samples.length * encoding.bytes();
        if (long64) {
            out.text("ds64")
                    .u32(28)
                    .u64(1L << 33)
                    .u64(dataBytes)
                    .u64(samples.length / channels)
                    .u32(0);
        }
        other(random, out);
        format(random, out, encoding, channels);
        other(random, out);
        out.text("data").u32((int) (long64 ? UNKNOWN : dataBytes));
        for (double sample : samples) {
            out.raw(stored(encoding, sample));
        }
        if (dataBytes % 2 == 1) {
            out.raw(new byte[1]);
        }
        other(random, out);
        return out.bytes();
    }

    private static void format(Random random, WavBytes out, Encoding encoding, int channels) {
        // Writers are known that give a wrong block align (REFERENCE: SPRSound), so any is given here.
        int blockAlign = random.nextInt(9);
        if (random.nextBoolean()) {
            out.format(encoding.tag, channels, 8_000, blockAlign, encoding.bits);
            return;
        }
        out.text("fmt ").u32(40).u16(0xFFFE).u16(channels).u32(8_000).u32(1).u16(blockAlign);
        out.u16(encoding.bits).u16(22).u16(encoding.bits).u32(random.nextInt());
        // Sub-format: the tag, then the rest of Microsoft's GUID.
        out.u16(encoding.tag)
                .raw(new byte[] {0, 0, 0, 0, 0x10, 0, (byte) 0x80, 0, 0, (byte) 0xAA, 0, 0x38, (byte) 0x9B, 0x71});
    }

    /** Chunks that a reader has to pass over, padded to even lengths. */
    private static void other(Random random, WavBytes out) {
        for (int i = random.nextInt(3); i > 0; i--) {
            byte[] body = new byte[random.nextInt(40)];
            random.nextBytes(body);
            out.chunk(new String[] {"LIST", "JUNK", "bext", "id3 ", "fact"}[random.nextInt(5)], body);
            if (body.length % 2 == 1) {
                out.raw(new byte[1]);
            }
        }
    }

    private static byte[] stored(Encoding encoding, double sample) {
        ByteBuffer all = ByteBuffer.allocate(8).order(ByteOrder.LITTLE_ENDIAN);
        if (encoding.tag == 3) {
            Object unused = encoding.bits == 32 ? all.putFloat((float) sample) : all.putDouble(sample);
        } else {
            double full = Math.pow(2, encoding.bits - 1);
            long step = Math.round(Math.max(-full, Math.min(full - 1, sample * full)));
            all.putLong(encoding.bits == 8 ? step + 128 : step);
        }
        return Arrays.copyOf(all.array(), encoding.bytes());
    }

    @Test
    void wrongHeadersGiveARecordingOrOneSentence() {
        Random random = new Random(20_261_125);
        assertTimeoutPreemptively(Duration.ofSeconds(60), () -> {
            for (int i = 0; i < WRONG; i++) {
                byte[] file = wrong(random);
                assertThatCode(() -> read(file))
                        .as("file %d: %s", i, Arrays.toString(file))
                        .doesNotThrowAnyException();
            }
        });
    }

    private static void read(byte[] file) {
        try {
            assertThat(RecordingReader.read(file, "wrong").length()).isBetween(1, file.length * 8);
        } catch (BadInput sentence) {
            assertThat(sentence.getMessage())
                    .startsWith("wrong: ")
                    .endsWith(".")
                    .doesNotContain("null");
        }
    }

    /** A file whose tags are right and whose numbers are mostly those that readers stumble over. */
    private static byte[] wrong(Random random) {
        WavBytes out = new WavBytes(new String[] {"RIFF", "RF64", "BW64"}[random.nextInt(3)]);
        for (int chunks = random.nextInt(6); chunks >= 0; chunks--) {
            switch (random.nextInt(5)) {
                case 0 ->
                    out.text("ds64")
                            .u32(number(random))
                            .u64(number(random) * 65_537L)
                            .u64(number(random) * 65_537L)
                            .u64(random.nextLong());
                case 1, 2 -> {
                    int tag = new int[] {0, 1, 2, 3, 6, 7, 0x55, 0xFFFE}[random.nextInt(8)];
                    out.text("fmt ").u32(random.nextInt(3) == 0 ? number(random) : random.nextBoolean() ? 16 : 40);
                    out.u16(tag)
                            .u16(random.nextBoolean() ? 1 : number(random))
                            .u32(random.nextBoolean() ? 8_000 : number(random));
                    out.u32(number(random)).u16(number(random)).u16(random.nextInt(70));
                    out.raw(new byte[random.nextInt(30)]);
                }
                case 3 -> {
                    byte[] body = new byte[random.nextInt(200)];
                    random.nextBytes(body);
                    out.text("data")
                            .u32(random.nextBoolean() ? body.length : number(random))
                            .raw(body);
                }
                default -> out.text("LIST").u32(number(random)).raw(new byte[random.nextInt(9)]);
            }
        }
        byte[] file = out.bytes();
        return random.nextInt(4) == 0 ? Arrays.copyOf(file, random.nextInt(file.length + 1)) : file;
    }

    private static int number(Random random) {
        int[] odd = {
            0, 1, 2, 3, 7, 16, 0x7FFF, 0xFFFF, Integer.MAX_VALUE, Integer.MAX_VALUE - 7, Integer.MIN_VALUE, -1, -2, -8
        };
        return random.nextInt(3) == 0 ? random.nextInt() : odd[random.nextInt(odd.length)];
    }
}
