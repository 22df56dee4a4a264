package lungwort.dataset;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DatabasesTest {
    @TempDir
    Path parent;

    @Test
    void aDatabaseIsFoundInItsOwnFolderAndInTheOneThatHoldsIt() {
        Path sprsound = MiniatureDatabases.sprsound(parent);
        Path icbhi = MiniatureDatabases.icbhi(parent);
        assertThat(Databases.all(parent)).extracting(Database::kind).containsExactly(DatabaseKind.values());
        assertThat(Databases.all(sprsound)).extracting(Database::kind).containsExactly(DatabaseKind.SPRSOUND);
        assertThat(Databases.all(icbhi)).extracting(Database::kind).containsExactly(DatabaseKind.ICBHI);
        assertThat(Databases.open(parent, DatabaseKind.ICBHI).folder()).isEqualTo(icbhi);
    }

    @ParameterizedTest
    @CsvSource({
        "inter, SPRSOUND",
        "intra, SPRSOUND",
        "train-cv, SPRSOUND",
        "test, ICBHI",
        "all, ICBHI",
        "icbhi-cv, ICBHI",
        "train, ICBHI",
    })
    void theSplitSaysWhichDatabaseIsMeantWhereBothLie(String split, DatabaseKind kind) {
        MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.icbhi(parent);
        Database database = Databases.forSplit(parent, split);
        assertThat(database.kind()).isEqualTo(kind);
        assertThat(database.recordings(split)).isNotEmpty();
    }

    @Test
    void trainMeansSprsoundWhereOnlyThatLies() {
        MiniatureDatabases.sprsound(parent);
        assertThat(Databases.forSplit(parent, "train").kind()).isEqualTo(DatabaseKind.SPRSOUND);
    }

    @Test
    void aSplitOfTheOtherDatabaseIsRefusedWithTheSplitsThatAreThere() {
        MiniatureDatabases.icbhi(parent);
        assertThatThrownBy(() -> Databases.forSplit(parent, "inter"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("the split 'inter' is SPRSound's, but the folder holds ICBHI 2017")
                .hasMessageContaining("train, test, all");
    }

    @Test
    void anUnknownSplitIsRefusedWithTheNamesThatExist() {
        MiniatureDatabases.icbhi(parent);
        assertThatThrownBy(() -> Databases.forSplit(parent, "validation"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no database has a split 'validation'; use inter, intra or train-cv");
        Database icbhi = Databases.open(parent, DatabaseKind.ICBHI);
        assertThatThrownBy(() -> icbhi.recordings("intra"))
                .isInstanceOf(BadInput.class)
                .hasMessage("ICBHI 2017 has no split 'intra'; use one of train, test, all, icbhi-cv.");
    }

    @Test
    void aFolderWithoutADatabaseIsRefused() throws IOException {
        Path empty = Files.createDirectory(parent.resolve("empty"));
        assertThatThrownBy(() -> Databases.all(empty))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("BioCAS2022 or ICBHI_final_database");
        assertThatThrownBy(() -> Databases.all(parent.resolve("nowhere")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("there is no such folder");
    }

    private void notFound(Path folder, String... parts) {
        assertThatThrownBy(() -> Databases.all(folder))
                .isInstanceOf(BadInput.class)
                .hasMessageContainingAll(parts);
    }

    /** Mirrors pack it into a folder of another name, unpackers into one more of the same. */
    @ParameterizedTest
    @ValueSource(strings = {"SPRSound-main", "BioCAS2022", "archive/data"})
    void aDatabaseThatLiesDeeperIsNamed(String between) {
        Path deeper = parent.resolve(between);
        Path root = MiniatureDatabases.sprsound(deeper);
        notFound(parent, "A database lies in %s; give that folder.".formatted(root));
        notFound(root.resolve("train2022_json"), "A database lies in %s; give that folder.".formatted(root));
        assertThat(Databases.all(root)).hasSize(1);
    }

    @Test
    void aDownloadThatIsStillPackedOrOnlyHalfUnpackedIsSaidToBeSo() throws IOException {
        Path zip = Files.createFile(parent.resolve("ICBHI_final_database.ZIP"));
        notFound(parent, zip + " is still packed; unpack it first.");
        notFound(zip, "it is still packed; unpack it, and give the folder");
        notFound(Files.createFile(parent.resolve("notes.txt")), "it is not a folder");
        Path wav = Files.createDirectories(parent.resolve("BioCAS2022/train2022_wav"));
        notFound(parent, wav + " is there, but not the annotations train2022_json");
    }

    @Test
    void audioIsFoundWhateverTheCaseOfItsEnding() throws IOException {
        Path root = MiniatureDatabases.sprsound(parent);
        Path wav = root.resolve("train2022_wav/10000001_4.5_0_p1_1.wav");
        Path upper = wav.resolveSibling("10000001_4.5_0_p1_1.WAV");
        Files.move(wav, upper);
        Path icbhi = MiniatureDatabases.icbhi(parent);
        Files.move(icbhi.resolve("902_1b1_Tc_mc_DeviceB.wav"), icbhi.resolve("902_1b1_Tc_mc_DeviceB.Wav"));
        for (Database database : Databases.all(parent)) {
            assertThat(database.recordings()).allMatch(AnnotatedRecording::hasAudio);
        }
        Files.copy(upper, wav);
        assumeTrue(
                Files.list(upper.getParent()).count() == 3,
                "this file system does not tell small from capital letters");
        assertThatThrownBy(() -> Databases.all(parent))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("so the sound of this recording is not one; take one of them away");
    }

    /** Editors of some systems save a text with a mark of its byte order and end its lines with two characters. */
    @Test
    void textFilesMayBeginWithAByteOrderMark() throws IOException {
        Path root = MiniatureDatabases.icbhi(parent);
        List<String> plain = Databases.open(parent, DatabaseKind.ICBHI).recordings().stream()
                .map(r -> r.id() + r.split() + r.ageYears() + r.events())
                .toList();
        for (String name : List.of("901_1b1_Al_sc_DeviceA.txt", IcbhiSplit.FILE_NAME, "demographic_info.txt")) {
            Path file = root.resolve(name);
            Files.writeString(file, "\uFEFF" + Files.readString(file).replace("\n", "\r\n"));
        }
        assertThat(Databases.open(parent, DatabaseKind.ICBHI).recordings().stream()
                        .map(r -> r.id() + r.split() + r.ageYears() + r.events()))
                .containsExactlyElementsOf(plain);
    }

    @Test
    void sprsoundIsReadWithPatientsSitesAgesLabelsAndSecondsFromMilliseconds() {
        MiniatureDatabases.sprsound(parent);
        Database database = Databases.open(parent, DatabaseKind.SPRSOUND);
        assertThat(database.recordings())
                .extracting(AnnotatedRecording::split)
                .containsExactly(Split.TRAIN, Split.TRAIN, Split.INTER, Split.INTRA);
        AnnotatedRecording first = database.recordings("train").get(0);
        assertThat(first.patient()).isEqualTo("10000001");
        assertThat(first.site()).isEqualTo("p1");
        assertThat(first.ageYears()).hasValue(4.5);
        assertThat(first.label()).isEqualTo(RecordingLabel.CAS);
        assertThat(first.durationSeconds()).hasValue(3.0);
        assertThat(first.events())
                .containsExactly(
                        new AnnotatedEvent(0.1, 1.25, EventLabel.NORMAL),
                        new AnnotatedEvent(1.5, 2.75, EventLabel.WHEEZE));
        assertThat(database.recordings("train").get(1).events()).isEmpty();
        assertThat(database.recordings("train").get(1).label()).isEqualTo(RecordingLabel.POOR_QUALITY);
    }

    @Test
    void timesWrittenAsNumbersAreReadLikeTimesWrittenAsStrings() {
        MiniatureDatabases.sprsound(parent);
        AnnotatedRecording intra =
                Databases.forSplit(parent, "intra").recordings("intra").get(0);
        assertThat(intra.events())
                .containsExactly(
                        new AnnotatedEvent(0.2, 0.9005, EventLabel.WHEEZE_AND_CRACKLE),
                        new AnnotatedEvent(1.0, 2.0, EventLabel.FINE_CRACKLE));
        assertThat(intra.label()).isEqualTo(RecordingLabel.CAS_AND_DAS);
    }

    /** The database's own page writes its example so. */
    @Test
    void theOtherSpellingsOfTheDatabasesPageAreRead() {
        Path root = MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.text(
                root.resolve("test2022_json/intra_test_json/10000001_4.5_0_p2_4.json"),
                MiniatureDatabases.numbersNotStrings()
                        .replace("record_annotation", "recording_annotation")
                        .replace("Wheeze+Crackle", "Wheeze & Crackle"));
        AnnotatedRecording intra =
                Databases.forSplit(parent, "intra").recordings("intra").get(0);
        assertThat(intra.label()).isEqualTo(RecordingLabel.CAS_AND_DAS);
        assertThat(intra.events().get(0).label()).isEqualTo(EventLabel.WHEEZE_AND_CRACKLE);
    }

    @Test
    void icbhiIsReadWithSplitAgesDevicesAndLabelsFromItsCycles() {
        MiniatureDatabases.icbhi(parent);
        Database database = Databases.open(parent, DatabaseKind.ICBHI);
        assertThat(database.recordings())
                .extracting(AnnotatedRecording::split)
                .containsExactly(Split.TRAIN, Split.TEST, Split.TRAIN);
        assertThat(database.recordings())
                .extracting(AnnotatedRecording::label)
                .containsExactly(RecordingLabel.DAS, RecordingLabel.CAS_AND_DAS, RecordingLabel.NORMAL);
        AnnotatedRecording last = database.recordings().get(2);
        assertThat(last.device()).isEqualTo("DeviceB");
        assertThat(last.ageYears()).isEmpty();
        assertThat(database.recordings().get(0).ageYears()).hasValue(70.5);
        assertThat(database.warnings()).anyMatch(w -> w.contains("901 stand on both sides"));
    }

    @Test
    void icbhiCyclesWithoutTheirAudioCountButCannotBeScored() {
        Path root = MiniatureDatabases.icbhi(parent);
        MiniatureDatabases.delete(root.resolve("901_1b1_Al_sc_DeviceA.wav"));
        Database database = Databases.open(parent, DatabaseKind.ICBHI);
        assertThat(database.recordings("train")).hasSize(2);
        assertThat(database.withAudio("train"))
                .extracting(AnnotatedRecording::id)
                .containsExactly("902_1b1_Tc_mc_DeviceB");
        assertThat(database.warnings())
                .contains("The audio of 1 of 3 recordings is not there; only their annotations count.");
        MiniatureDatabases.delete(root.resolve("902_1b1_Tc_mc_DeviceB.wav"));
        assertThatThrownBy(() -> Databases.open(parent, DatabaseKind.ICBHI).withAudio("train"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("none of its audio");
    }

    @Test
    void countsThatDifferFromTheReleaseAreWarnedOfWithWhatWasExpected() {
        MiniatureDatabases.icbhi(parent);
        List<String> warnings = Databases.open(parent, DatabaseKind.ICBHI).warnings();
        assertThat(warnings)
                .contains(
                        "all, cycles: 5 found where the release holds 6898; parts may be missing or from another release.");
    }

    @ParameterizedTest
    @ValueSource(strings = {"._10000001_4.5_0_p1_1.json", ".DS_Store", "notes.txt"})
    void filesThatAreNotTheDatabasesAreLeftAlone(String name) {
        Path root = MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.text(root.resolve("train2022_json").resolve(name), "{");
        assertThat(Databases.open(parent, DatabaseKind.SPRSOUND).recordings("train"))
                .hasSize(2);
    }

    @Test
    void theDigestFollowsNamesSizesAndAnnotationsButNotTheFolder(@TempDir Path elsewhere) {
        MiniatureDatabases.sprsound(parent);
        Path other = MiniatureDatabases.sprsound(elsewhere);
        String digest = digest(parent);
        assertThat(digest).matches("[0-9a-f]{64}").isEqualTo(digest(elsewhere));
        Path json = other.resolve("train2022_json/10000001_4.5_0_p1_1.json");
        // the same annotation written otherwise is the same data
        MiniatureDatabases.text(
                json,
                "{\"event_annotation\":[{\"type\":\"Normal\",\"start\":100,\"end\":1250},{\"type\":\"Wheeze\",\"start\":1500,\"end\":2750}],\"record_annotation\":\"CAS\"}");
        assertThat(digest(elsewhere)).isEqualTo(digest);
        MiniatureDatabases.text(json, MiniatureDatabases.normalThenWheeze().replace("2750", "2751"));
        assertThat(digest(elsewhere)).isNotEqualTo(digest);
        MiniatureDatabases.text(json, MiniatureDatabases.normalThenWheeze());
        assertThat(digest(elsewhere)).isEqualTo(digest);
        MiniatureDatabases.noise(other.resolve("train2022_wav/10000001_4.5_0_p1_1.wav"), 4);
        assertThat(digest(elsewhere)).isNotEqualTo(digest);
    }

    /** Oracle: the lines that the program sha256sum prints, put together by hand. [C] */
    @Test
    void theDigestOfTheAudioFollowsEveryByteButNotTheFolderOrTheAnnotations(@TempDir Path elsewhere) throws Exception {
        MiniatureDatabases.sprsound(parent);
        Path other = MiniatureDatabases.sprsound(elsewhere);
        StringBuilder lines = new StringBuilder();
        for (AnnotatedRecording r :
                Databases.open(parent, DatabaseKind.SPRSOUND).recordings("train")) {
            byte[] bytes = Files.readAllBytes(r.audio());
            lines.append(HexFormat.of()
                    .formatHex(MessageDigest.getInstance("SHA-256").digest(bytes)));
            lines.append("  ").append(r.id()).append(".wav\n");
        }
        String all = HexFormat.of()
                .formatHex(MessageDigest.getInstance("SHA-256")
                        .digest(lines.toString().getBytes(StandardCharsets.US_ASCII)));
        assertThat(audioDigest(parent)).isEqualTo(all).isEqualTo(audioDigest(elsewhere));
        MiniatureDatabases.text(
                other.resolve("train2022_json/10000001_4.5_0_p1_1.json"),
                MiniatureDatabases.normalThenWheeze().replace("2750", "2751"));
        assertThat(audioDigest(elsewhere)).isEqualTo(all);
        Path wav = other.resolve("train2022_wav/10000001_4.5_0_p1_1.wav");
        byte[] changed = Files.readAllBytes(wav);
        changed[changed.length - 1] ^= 1;
        Files.write(wav, changed);
        assertThat(audioDigest(elsewhere)).isNotEqualTo(all);
    }

    private static String audioDigest(Path folder) {
        return Database.audioDigest(
                Databases.open(folder, DatabaseKind.SPRSOUND).recordings("train"));
    }

    private static String digest(Path folder) {
        return Database.digest(Databases.open(folder, DatabaseKind.SPRSOUND).recordings("train"));
    }
}
