package lungwort.dataset;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Damaged or incomplete downloads are refused with one sentence that names the file and what to do. */
class DamagedDatabasesTest {
    private static final String TRAIN_JSON = "train2022_json/10000001_4.5_0_p1_1.json";
    private static final String TRAIN_WAV = "train2022_wav/10000001_4.5_0_p1_1.wav";
    private static final String CYCLES = "901_1b1_Al_sc_DeviceA.txt";

    @TempDir
    Path parent;

    private void refused(Path file, String... parts) {
        assertThatThrownBy(() -> Databases.all(parent))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(file.getFileName().toString())
                .hasMessageContainingAll(parts)
                .satisfies(e -> assertThat(e.getMessage()).doesNotContain("Exception", "\n"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "'\"Wheeze\"'  | '\"Whistle\"' | the label 'Whistle' of 'type' is unknown",
                "'\"CAS\"'     | '\"Fine\"'    | the label 'Fine' of 'record_annotation' is unknown",
                "'\"CAS\"'     | 'null'        | 'record_annotation' is missing or empty",
                "'\"1500\"'    | '\"-1500\"'   | event 1: it lasts from -1.500 to 2.750 s",
                "'\"1500\"'    | '\"2750\"'    | an event must start at 0 s or later and end after its start",
                "'\"1500\"'    | '\"soon\"'    | 'start' is not a time in milliseconds but 'soon'",
                "'\"1500\"'    | '\"NaN\"'     | event 1: it lasts from NaN to 2.750 s",
                "'\"2750\"'    | '\"Infinity\"' | an event must start at 0 s or later and end after its start",
                "'\"end\"'     | '\"stop\"'    | 'end' is not a time in milliseconds but ''",
                "'\"2750\"'    | '\"3600\"'    | lies after the end of the audio (3.000 s)",
                "'\"start\": \"1500\", \"end\": \"2750\"' | '\"start\": \"9000\", \"end\": \"9001\"' | lies after the end of the audio",
                "'event_annotation' | 'events' | 'event_annotation' is not a list",
                "'{\"record' | 'record' | it is not valid JSON",
                "']}' | '' | it is not valid JSON",
                "']}' | ']} {}' | it is not valid JSON",
                "']}' | '], \"record_annotation\": \"Normal\"}' | it is not valid JSON",
            })
    void aWrongSprsoundAnnotationIsRefused(String good, String bad, String sentence) {
        Path root = MiniatureDatabases.sprsound(parent);
        String json = MiniatureDatabases.normalThenWheeze();
        assertThat(json).contains(good);
        MiniatureDatabases.text(root.resolve(TRAIN_JSON), json.replace(good, bad));
        refused(root.resolve(TRAIN_JSON), sentence);
    }

    @Test
    void emptyAndBinaryAnnotationsAreRefused() throws IOException {
        Path root = MiniatureDatabases.sprsound(parent);
        Path json = root.resolve(TRAIN_JSON);
        Files.write(json, new byte[0]);
        refused(json, "it has 0 bytes");
        Files.write(json, new byte[] {0, 1, 2, (byte) 0xFF, (byte) 0xFE});
        refused(json, "it is not valid JSON, or says something twice (line 1); unpack the download again.");
    }

    @Test
    void audioWithoutAnnotationIsRefused() {
        Path root = MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.delete(root.resolve(TRAIN_JSON));
        refused(
                root.resolve(TRAIN_WAV),
                "its annotation 10000001_4.5_0_p1_1.json is missing",
                "unpack the download again");
    }

    @Test
    void aPartOfSprsoundsAudioMissingIsRefused() {
        Path root = MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.delete(root.resolve(TRAIN_WAV));
        refused(root.resolve(TRAIN_WAV), "the audio of 1 of 2 recordings is missing");
    }

    @Test
    void cutEmptyAndForeignAudioIsRefused() throws IOException {
        Path root = MiniatureDatabases.sprsound(parent);
        Path wav = root.resolve(TRAIN_WAV);
        byte[] whole = Files.readAllBytes(wav);
        Files.write(wav, Arrays.copyOf(whole, whole.length / 2));
        refused(wav, "it was cut: its header announces 24000 bytes of sound, but only 11978 are there");
        Files.write(wav, Arrays.copyOf(whole, 44));
        refused(wav, "it holds no sound");
        Files.write(wav, Arrays.copyOf(whole, 20));
        refused(wav, "it is not a WAVE file");
        Files.write(wav, "ID3 not a wave at all".getBytes(java.nio.charset.StandardCharsets.US_ASCII));
        refused(wav, "it is not a WAVE file");
        Files.write(wav, new byte[0]);
        refused(wav, "it is not a WAVE file");
    }

    @Test
    void anEventThatEndsALittleAfterTheAudioIsClippedAndSaid() {
        Path root = MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.text(
                root.resolve(TRAIN_JSON), MiniatureDatabases.normalThenWheeze().replace("2750", "3100"));
        Database database = Databases.open(parent, DatabaseKind.SPRSOUND);
        assertThat(database.recordings("train").get(0).events().get(1).endSeconds())
                .isEqualTo(3.0);
        assertThat(database.warnings()).anyMatch(w -> w.startsWith("1 events clipped to the end of their audio"));
    }

    @Test
    void eventsThatOverlapAreKeptAndSaid() {
        Path root = MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.text(
                root.resolve(TRAIN_JSON), MiniatureDatabases.normalThenWheeze().replace("1250", "1600"));
        Database database = Databases.open(parent, DatabaseKind.SPRSOUND);
        assertThat(Database.events(database.recordings("train"))).isEqualTo(2);
        assertThat(database.warnings())
                .anyMatch(w -> w.startsWith("1 events that begin before the one before has ended"));
    }

    @Test
    void aLabelThatDoesNotFollowFromTheEventsIsSaid() {
        Path root = MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.text(
                root.resolve(TRAIN_JSON), MiniatureDatabases.normalThenWheeze().replace("CAS", "DAS"));
        assertThat(Databases.open(parent, DatabaseKind.SPRSOUND).warnings())
                .anyMatch(w -> w.startsWith("1 recordings whose label does not follow from their events"));
    }

    /** Two recordings of the miniature are of one patient, all are of the same noise; one sample that differs makes another sound. */
    @Test
    void theSameSoundTwiceIsSaidAndWhetherItIsOfOnePatient() throws IOException {
        Path root = MiniatureDatabases.sprsound(parent);
        String ofAnother =
                " as one of another patient, byte for byte, so that folds by patient learn from what they score";
        assertThat(Databases.open(parent, DatabaseKind.SPRSOUND).warnings())
                .anyMatch(w -> w.startsWith("2 recordings that hold the same sound" + ofAnother)
                        && w.contains("(first: 10000002_0.2_1_p3_2 as 10000001_4.5_0_p1_1)"))
                .anyMatch(w -> w.startsWith("1 recordings that hold the same sound as another one of their patient")
                        && w.contains("(first: 10000001_4.5_0_p2_4 as 10000001_4.5_0_p1_1)"));
        List<String> copies = List.of(
                "train2022_wav/10000002_0.2_1_p3_2.wav",
                "test2022_wav/10000003_9.0_1_p2_3.wav",
                "test2022_wav/10000001_4.5_0_p2_4.wav");
        for (int i = 0; i < copies.size(); i++) {
            byte[] bytes = Files.readAllBytes(root.resolve(copies.get(i)));
            bytes[bytes.length - 1 - 2 * i] ^= 1;
            Files.write(root.resolve(copies.get(i)), bytes);
        }
        assertThat(Databases.open(parent, DatabaseKind.SPRSOUND).warnings()).noneMatch(w -> w.contains("same sound"));
    }

    /** The 177 recordings of poor quality are exactly those without an event, so another annotation of either kind is one of another recording or release. */
    @Test
    void poorQualityWithEventsAndAnotherLabelWithoutAreSaid() {
        Path root = MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.text(
                root.resolve(TRAIN_JSON), MiniatureDatabases.normalThenWheeze().replace("CAS", "Poor Quality"));
        MiniatureDatabases.text(
                root.resolve("train2022_json/10000002_0.2_1_p3_2.json"),
                MiniatureDatabases.poor().replace("Poor Quality", "Normal"));
        assertThat(Databases.open(parent, DatabaseKind.SPRSOUND).warnings())
                .anyMatch(w -> w.startsWith("2 recordings whose label does not follow from their events"));
    }

    @Test
    void aSprsoundNameWithoutItsFivePartsIsRefused() {
        Path root = MiniatureDatabases.sprsound(parent);
        Path odd = root.resolve("train2022_json/recording7.json");
        MiniatureDatabases.text(odd, MiniatureDatabases.poor());
        refused(odd, "the file name is not patient_age_sex_site_number");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "'0.036\t1.2\t0\t0' | 'line 1: crackles is ''2'', but it must be 0 or 1' | '0.036\t1.2\t2\t0'",
                "'0.036\t1.2\t0\t0' | 'line 1: there are 3 fields' | '0.036\t1.2\t0'",
                "'0.036\t1.2\t0\t0' | 'line 1: ''start'' is not a time in seconds' | 'start\t1.2\t0\t0'",
                "'0.036\t1.2\t0\t0' | 'line 1: it lasts from 1.200 to 0.036 s' | '1.2\t0.036\t0\t0'",
                "'1.2\t2.5\t1\t0' | 'lies after the end of the audio (3.000 s)' | '1.2\t25\t1\t0'",
            })
    void aWrongIcbhiCycleIsRefused(String good, String sentence, String bad) {
        Path root = MiniatureDatabases.icbhi(parent);
        MiniatureDatabases.text(root.resolve(CYCLES), "0.036\t1.2\t0\t0\n1.2\t2.5\t1\t0\n".replace(good, bad));
        refused(root.resolve(CYCLES), sentence);
    }

    @Test
    void icbhiAudioWithoutItsCyclesIsRefused() {
        Path root = MiniatureDatabases.icbhi(parent);
        MiniatureDatabases.delete(root.resolve(CYCLES));
        refused(root.resolve("901_1b1_Al_sc_DeviceA.wav"), "its annotation " + CYCLES + " is missing");
    }

    @Test
    void icbhiWithoutItsSplitOrWithAStrangerIsRefused() {
        Path root = MiniatureDatabases.icbhi(parent);
        Path split = root.resolve(IcbhiSplit.FILE_NAME);
        MiniatureDatabases.text(split, "901_1b1_Al_sc_DeviceA\ttrain\n901_1b2_Al_sc_DeviceA\ttest\n");
        refused(root.resolve("902_1b1_Tc_mc_DeviceB.txt"), "the recording is not in the official split");
        MiniatureDatabases.text(split, "901_1b1_Al_sc_DeviceA\tlearn\n");
        refused(split, "line 1: it must be a recording's name and train or test");
        MiniatureDatabases.delete(split);
        refused(split, "the official split ICBHI_challenge_train_test.txt is missing");
    }
}
