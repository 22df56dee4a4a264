package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.StreamSupport;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.examine.Examination;
import lungwort.json.Json;
import lungwort.round.RoundService;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** A stethoscope on the left channel and a room microphone on the right: what is asked for is what is examined, kept and read again later. */
class ChannelOptionTest {
    private static final int RATE_HZ = 4000;
    private static final int SAMPLES = 4 * RATE_HZ;

    @TempDir
    Path temp;

    private Path stereo = Path.of("");

    @BeforeEach
    void writeALoudLeftAndASoftRight() throws IOException {
        stereo = Files.write(temp.resolve("stereo.wav"), wav(0.5, 0.05));
    }

    /** RIFF WAVE, 16-bit PCM, one tone at the given amplitude for each channel. */
    private static byte[] wav(double... amplitudes) {
        int channels = amplitudes.length;
        ByteBuffer wav = ByteBuffer.allocate(44 + SAMPLES * channels * 2).order(ByteOrder.LITTLE_ENDIAN);
        wav.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(wav.capacity() - 8);
        wav.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
        wav.putShort((short) 1).putShort((short) channels).putInt(RATE_HZ).putInt(RATE_HZ * channels * 2);
        wav.putShort((short) (channels * 2)).putShort((short) 16);
        wav.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(SAMPLES * channels * 2);
        for (int i = 0; i < SAMPLES; i++) {
            for (double amplitude : amplitudes) {
                wav.putShort((short) Math.round(32767 * amplitude * Math.sin(2 * Math.PI * 300 * i / RATE_HZ)));
            }
        }
        return wav.array();
    }

    /** Loud stands for a wheeze. */
    private static Examination examine(Recording recording) {
        double peak = Arrays.stream(recording.samples()).map(Math::abs).max().orElse(0);
        return Examples.examination(peak > 0.4 ? 1 : 0, 0);
    }

    private static RoundService service(Diary diary) {
        return new RoundService(diary, RecordingReader::read, ChannelOptionTest::examine);
    }

    private static String run(CommandLine main, String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        main.setOut(new PrintWriter(out));
        main.setErr(new PrintWriter(err));
        assertThat(main.execute(arguments)).as(err.toString()).isZero();
        return out.toString();
    }

    private String round(String... arguments) {
        return run(
                Main.commandLine(ChannelOptionTest::service, writer -> null),
                java.util.stream.Stream.concat(
                                Arrays.stream(arguments),
                                java.util.stream.Stream.of(
                                        "--diary", temp.resolve("diary").toString()))
                        .toArray(String[]::new));
    }

    @Test
    void aRoundKeepsTheChannelThatWasAskedForAndReadsItAgain() {
        round("diary", "person", "add", "Mia", "--born", "2021-04");
        String file = stereo.toString();

        assertThat(round("round", "add", file, "--person", "Mia", "--site", "neck", "--channel", "left"))
                .contains("suggests a continuous extra sound");
        assertThat(round("round", "add", file, "--person", "Mia", "--site", "back-lower-left", "--channel", "right"))
                .contains("no extra sound heard");
        assertThat(round("diary", "re-examine")).contains("2 takes examined again, 0 with another suggestion");
        try (Diary diary = Diary.open(temp.resolve("diary"))) {
            var person = diary.persons().need("Mia");
            assertThat(diary.takes().ofPerson(person.id()))
                    .extracting(t -> t.fileName())
                    .containsExactlyInAnyOrder("stereo.wav (left channel).wav", "stereo.wav (right channel).wav");
        }
    }

    @Test
    void withoutTheOptionTheFileIsKeptAsItCame() throws IOException {
        round("diary", "person", "add", "Mia", "--born", "2021-04");
        round("round", "add", stereo.toString(), "--person", "Mia", "--site", "neck");
        Path mono = Files.write(temp.resolve("mono.wav"), wav(0.5));
        round("round", "add", mono.toString(), "--person", "Mia", "--site", "back-lower-left", "--channel", "left");

        try (Diary diary = Diary.open(temp.resolve("diary"))) {
            var takes = diary.takes().ofPerson(diary.persons().need("Mia").id());
            List<byte[]> kept = takes.stream()
                    .map(t -> diary.recordings().read(t.recordingSha256()))
                    .toList();
            assertThat(kept).anyMatch(b -> Arrays.equals(b, wav(0.5, 0.05))).anyMatch(b -> Arrays.equals(b, wav(0.5)));
        }
    }

    /** One listen by two channels is not two: the softer one would say that the sound cleared. Two channels at two places may be two chest pieces. */
    @Test
    void theOtherChannelIsNoSecondListen() {
        round("diary", "person", "add", "Mia", "--born", "2021-04");
        String file = stereo.toString();
        round("round", "add", file, "--person", "Mia", "--site", "neck", "--channel", "left");

        for (List<String> again : List.of(
                List.of("neck", "--channel", "right"),
                List.of("neck", "--channel", "right", "--take", "after-cough"),
                List.of("neck"),
                List.of("back-lower-left"))) {
            assertThat(refused("round", "add", file, again))
                    .matches(
                            "lungwort: .*stereo\\.wav was not added: stereo\\.wav.* is the recording that stands in this"
                                    + " round already with another of its channels \\(.*: stereo\\.wav \\(left channel\\)\\.wav\\),"
                                    + " and that is no second listen; record again, or begin another round and add it there,"
                                    + " or, if that take is there by mistake, take that one out: lungwort round take-out --person Mia --round [0-9a-f]+ --site neck --take first\\R");
        }
        round("round", "add", file, "--person", "Mia", "--site", "back-lower-left", "--channel", "right");
        try (Diary diary = Diary.open(temp.resolve("diary"))) {
            assertThat(diary.takes().ofPerson(diary.persons().need("Mia").id())).hasSize(2);
        }
    }

    /** All of it holds each of its channels. */
    @Test
    void oneChannelOfARecordingThatIsThereAsAWholeIsNoSecondListen() {
        round("diary", "person", "add", "Mia", "--born", "2021-04");
        String file = stereo.toString();
        round("round", "add", file, "--person", "Mia", "--site", "neck");

        for (String site : List.of("neck", "back-lower-left")) {
            assertThat(refused("round", "add", file, List.of(site, "--channel", "left")))
                    .contains("already with another of its channels (neck, over the windpipe: stereo.wav)");
        }
    }

    private String refused(String command, String sub, String file, List<String> site) {
        List<String> words = new java.util.ArrayList<>(List.of(command, sub, file, "--person", "Mia", "--site"));
        words.addAll(site);
        words.addAll(List.of("--diary", temp.resolve("diary").toString()));
        StringWriter err = new StringWriter();
        CommandLine main = Main.commandLine(ChannelOptionTest::service, writer -> null);
        main.setOut(new PrintWriter(new StringWriter())).setErr(new PrintWriter(err));
        assertThat(main.execute(words.toArray(String[]::new))).isEqualTo(1);
        return err.toString();
    }

    @Test
    void compareTakesTheChannelThatWasAskedFor() throws IOException {
        Path left = Files.write(temp.resolve("left.wav"), wav(0.5));

        assertThat(levelDifference(left, "left")).isZero();
        assertThat(levelDifference(left, "right")).isCloseTo(-20, org.assertj.core.api.Assertions.within(0.5));
    }

    /** 0.5 against 0.05 is 20 dB. */
    private double levelDifference(Path one, String channel) {
        JsonNode json = Json.parse(
                run(
                        Main.commandLine(model -> ChannelOptionTest::examine),
                        "compare",
                        one.toString(),
                        stereo.toString(),
                        "--channel",
                        channel,
                        "--json"),
                "compare");
        return levelDb(json.get("second")) - levelDb(json.get("first"));
    }

    /** Level of the third-octave that holds the tone. */
    private static double levelDb(JsonNode take) {
        return StreamSupport.stream(take.get("spectrum").spliterator(), false)
                .min(Comparator.comparingDouble(b -> Math.abs(b.get("hz").asDouble() - 300)))
                .orElseThrow()
                .get("db")
                .asDouble();
    }
}
