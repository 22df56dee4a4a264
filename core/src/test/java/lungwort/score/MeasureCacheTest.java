package lungwort.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.WavWriter;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.EventLabel;
import lungwort.dataset.RecordingLabel;
import lungwort.dataset.Split;
import lungwort.feature.MelImage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MeasureCacheTest {
    @TempDir
    private Path folder;

    private Path kept;
    private Path wav;

    @BeforeEach
    void write() {
        kept = folder.resolve("kept");
        wav = folder.resolve("a.wav");
        write(1);
    }

    /** Noise with a tone, so that sounds are measured too. */
    private void write(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double[] x = new double[5 * 8000];
        for (int i = 0; i < x.length; i++) {
            boolean tone = i > 8000 && i < 16_000;
            x[i] = 0.02 * random.nextGaussian() + (tone ? 0.2 * Math.sin(2 * Math.PI * 400 * i / 8000) : 0);
        }
        WavWriter.write(wav, new Recording(x, 8000, "a"), WavWriter.Encoding.PCM_16);
    }

    private AnnotatedRecording annotated(double endSeconds) {
        return new AnnotatedRecording(
                "a",
                wav,
                1,
                OptionalDouble.of(5),
                "p",
                "p1",
                OptionalDouble.empty(),
                "device",
                Split.TRAIN,
                List.of(new AnnotatedEvent(1, endSeconds, EventLabel.WHEEZE)),
                RecordingLabel.CAS);
    }

    private Measured measured(double endSeconds, AlterationRow row) {
        return new Measurer(new Measuring(Progress.SILENT, MeasureCache.in(kept)))
                .all(List.of(annotated(endSeconds)), row)
                .get(0);
    }

    private List<Path> files() {
        try (Stream<Path> all = Files.list(kept)) {
            return all.sorted().toList();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Test
    void whatIsKeptIsWhatWasMeasured() {
        Measured plain = new Measurer(Measuring.PLAIN)
                .all(List.of(annotated(2)), AlterationRow.NONE)
                .get(0);
        Measured first = measured(2, AlterationRow.NONE);
        assertThat(files()).hasSize(1);
        for (Measured m : List.of(first, measured(2, AlterationRow.NONE))) {
            assertThat(m.item().segments()).isDeepEqualTo(plain.item().segments());
            assertThat(m.item().windows()).isDeepEqualTo(plain.item().windows());
            assertThat(m.item().recording()).isEqualTo(plain.item().recording());
            assertThat(m.item().image()).isDeepEqualTo(plain.item().image());
            assertThat(m.item().heard()).isDeepEqualTo(plain.item().heard());
            assertThat(m.windows()).isEqualTo(plain.windows());
            assertThat(m.examined()).isEqualTo(plain.examined());
        }
        assertThat(plain.examined().sounds()).isNotEmpty();
        assertThat(files()).hasSize(1);
    }

    @Test
    void whatIsKeptIsReallyTakenFromThere() throws IOException {
        Measured first = measured(2, AlterationRow.NONE);
        float[] other = first.item().recording().clone();
        other[0] += 1;
        MeasuredFile changed = new MeasuredFile(
                first.item().segments(),
                first.windows(),
                first.item().windows(),
                other,
                MelImage.bytes(first.item().image()),
                first.examined());
        Files.write(files().get(0), changed.bytes());
        assertThat(measured(2, AlterationRow.NONE).item().recording()).isEqualTo(other);
    }

    /** A recording of 5 s with a wheeze marked from 1 to 2 s: frames of 20 ms tell when it is heard, in an altered copy too; a breath cycle's bounds are no sound's. */
    @Test
    void whenSoundsAreHeardIsKnownForMarkedSoundsOnly() {
        Measured m = measured(2, AlterationRow.NONE);
        boolean[][] heard = m.item().heard();
        assertThat(m.item().image()).hasDimensions(MelImage.ROWS, 251);
        assertThat(heard).hasDimensions(2, 251);
        for (int f = 0; f < 251; f++) {
            assertThat(heard[0][f]).as("frame %d", f).isEqualTo(f >= 50 && f < 100);
            assertThat(heard[1][f]).isFalse();
        }
        assertThat(m.withCycles().item().heard()).isEmpty();
        assertThat(m.withCycles().item().image()).isEqualTo(m.item().image());
        assertThat(m.cyclesAsWindows().item().heard()).isEmpty();
        for (DatabaseKind kind : DatabaseKind.values()) {
            Measured learnt = Trainer.measure(kind, List.of(annotated(2)), CrossValidationTest.RECIPE, Measuring.PLAIN)
                    .get(0);
            assertThat(learnt.item().heard().length).isEqualTo(kind == DatabaseKind.SPRSOUND ? 2 : 0);
        }
        assertThat(m.cyclesAsWindows().item().image()).isEqualTo(m.item().image());
        Measured copy =
                new Measurer(Measuring.PLAIN).altered(List.of(annotated(2)), 3).get(0);
        assertThat(copy.item().heard()).isDeepEqualTo(heard);
        assertThat(copy.item().marked()).isEmpty();
        assertThat(copy.item().classes()).isEqualTo(m.item().classes()).isNotEmpty();
        assertThat(copy.item().spans()).isEqualTo(m.item().spans());
        assertThat(copy.item().segments()).hasSameDimensionsAs(m.item().segments());
        assertThat(java.util.Arrays.deepEquals(copy.item().segments(), m.item().segments()))
                .isFalse();
        assertThat(copy.item().sounds()).isNotEmpty();
        assertThat(copy.cyclesAsWindows().item().windows())
                .isEqualTo(copy.item().windows());
        assertThat(copy.item().image()).hasDimensions(MelImage.ROWS, 251);
        assertThat(java.util.Arrays.deepEquals(copy.item().image(), m.item().image()))
                .isFalse();
    }

    @Test
    void otherSoundOtherMarksOrAnotherAlterationAreMeasuredAnew() {
        measured(2, AlterationRow.NONE);
        measured(2.5, AlterationRow.NONE);
        assertThat(files()).hasSize(2);
        measured(2, AlterationRow.SOFTER);
        assertThat(files()).hasSize(3);
        write(2);
        measured(2, AlterationRow.NONE);
        assertThat(files()).hasSize(4);
    }

    @Test
    void whatWasMeasuredOnceIsTakenAgain() {
        Measured scored = measured(2, AlterationRow.NONE);
        Measured learnt = new Measurer(new Measuring(Progress.SILENT, MeasureCache.in(kept)))
                .all(List.of(annotated(2)), Measurer.Purpose.ANSWERED)
                .get(0);
        assertThat(learnt.item().recording()).isEqualTo(scored.item().recording());
        assertThat(files()).hasSize(1);
    }

    @Test
    void whatIsDamagedOrCutIsMeasuredAgain() throws IOException {
        Measured first = measured(2, AlterationRow.NONE);
        Path file = files().get(0);
        byte[] whole = Files.readAllBytes(file);
        for (int at = 0; at < whole.length; at += whole.length / 13) {
            byte[] damaged = whole.clone();
            damaged[at] ^= 0x41;
            Files.write(file, at % 2 == 0 ? damaged : java.util.Arrays.copyOf(whole, at));
            assertThat(measured(2, AlterationRow.NONE).item().windows())
                    .isDeepEqualTo(first.item().windows());
            assertThat(Files.readAllBytes(file)).isEqualTo(whole);
        }
    }

    @Test
    void aFolderThatCannotBeMadeIsNamed() throws IOException {
        Path file = Files.writeString(folder.resolve("file"), "no folder");
        assertThatThrownBy(() -> MeasureCache.in(file.resolve("below")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("leave --cache out");
    }

    /** Another version of a library is another digest: here two jars with the same class name and one byte between them. */
    @Test
    void aLibraryWithOtherCodeHasAnotherDigest() throws Exception {
        java.util.Set<String> digests = new java.util.HashSet<>();
        for (byte version : new byte[] {1, 2, 2}) {
            digests.add(digestOfJar(folder.resolve("v" + digests.size() + "-" + version + ".jar"), version));
        }
        assertThat(digests).hasSize(2);
    }

    private static String digestOfJar(Path jar, byte version) throws Exception {
        String name = Probe.class.getName().replace('.', '/') + ".class";
        try (var out = new java.util.jar.JarOutputStream(Files.newOutputStream(jar));
                var in = java.util.Objects.requireNonNull(Probe.class.getResourceAsStream("/" + name))) {
            out.putNextEntry(new java.util.zip.ZipEntry("lungwort/score/"));
            out.putNextEntry(new java.util.zip.ZipEntry(name));
            out.write(in.readAllBytes());
            out.putNextEntry(new java.util.zip.ZipEntry("lungwort/score/other.class"));
            out.write(version);
        }
        try (var loader = new java.net.URLClassLoader(
                new java.net.URL[] {jar.toUri().toURL()}, ClassLoader.getPlatformClassLoader())) {
            return MeasuringCode.digest(loader.loadClass(Probe.class.getName()), "lungwort/score");
        }
    }

    /** Stands for a class of a library. */
    static final class Probe {}

    @Test
    void theMeasuringCodeHasADigest() {
        assertThat(MeasuringCode.digest()).matches("[0-9a-f]{64}").isEqualTo(MeasuringCode.digest());
    }
}
