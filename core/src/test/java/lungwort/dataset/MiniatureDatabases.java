package lungwort.dataset;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import lungwort.audio.Recording;
import lungwort.audio.WavWriter;

/** Small databases in the official layouts, of plain noise and invented patients. */
final class MiniatureDatabases {
    private static final int RATE_HZ = 4000;

    private MiniatureDatabases() {}

    /** {@code parent/BioCAS2022}: two training recordings, one inter, one intra. */
    static Path sprsound(Path parent) {
        Path root = parent.resolve(DatabaseKind.SPRSOUND.folderName());
        sprsoundOne(root, "train2022_wav", "train2022_json", "10000001_4.5_0_p1_1", normalThenWheeze());
        sprsoundOne(root, "train2022_wav", "train2022_json", "10000002_0.2_1_p3_2", poor());
        sprsoundOne(root, "test2022_wav", "test2022_json/inter_test_json", "10000003_9.0_1_p2_3", normalThenWheeze());
        sprsoundOne(root, "test2022_wav", "test2022_json/intra_test_json", "10000001_4.5_0_p2_4", numbersNotStrings());
        return root;
    }

    private static void sprsoundOne(Path root, String wavFolder, String jsonFolder, String id, String json) {
        noise(root.resolve(wavFolder).resolve(id + ".wav"), 3);
        text(root.resolve(jsonFolder).resolve(id + ".json"), json);
    }

    /** Times are strings and out of order, as in the real release. */
    static String normalThenWheeze() {
        return """
                {"record_annotation": "CAS", "event_annotation": [
                  {"start": "1500", "end": "2750", "type": "Wheeze"},
                  {"start": "100", "end": "1250", "type": "Normal"}]}
                """;
    }

    static String poor() {
        return "{\"record_annotation\": \"Poor Quality\", \"event_annotation\": []}";
    }

    static String numbersNotStrings() {
        return """
                {"record_annotation": "CAS & DAS", "event_annotation": [
                  {"start": 200, "end": 900.5, "type": "Wheeze+Crackle"},
                  {"start": 1000, "end": 2000, "type": "Fine Crackle"}]}
                """;
    }

    /** {@code parent/ICBHI_final_database}: three recordings of two patients, one of them on both sides, one name with another device in the split. */
    static Path icbhi(Path parent) {
        Path root = parent.resolve(DatabaseKind.ICBHI.folderName());
        icbhiOne(root, "901_1b1_Al_sc_DeviceA", "0.036\t1.2\t0\t0\n1.2\t2.5\t1\t0\n");
        icbhiOne(root, "901_1b2_Al_sc_DeviceA", "0.1\t1.2\t0\t1\n1.2\t2.5\t1\t1\n");
        icbhiOne(root, "902_1b1_Tc_mc_DeviceB", "0.1\t2.9\t0\t0\n");
        text(
                root.resolve(IcbhiSplit.FILE_NAME),
                "901_1b1_Al_sc_DeviceA\ttrain\n901_1b2_Al_sc_DeviceA\ttest\n902_1b1_Tc_mc_DeviceC\ttrain\n");
        text(root.resolve("demographic_info.txt"), "901 70.5 F 33 NA NA\n902 NA M NA NA NA\n");
        return root;
    }

    private static void icbhiOne(Path root, String id, String cycles) {
        noise(root.resolve(id + ".wav"), 3);
        text(root.resolve(id + ".txt"), cycles);
    }

    static void noise(Path file, int seconds) {
        double[] samples =
                new Random(seconds).doubles((long) seconds * RATE_HZ, -0.1, 0.1).toArray();
        makeFolder(file);
        WavWriter.write(file, new Recording(samples, RATE_HZ, "noise"), WavWriter.Encoding.PCM_16);
    }

    static void text(Path file, String content) {
        makeFolder(file);
        try {
            Files.writeString(file, content, StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static void delete(Path file) {
        try {
            Files.delete(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void makeFolder(Path file) {
        try {
            Files.createDirectories(file.getParent());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
