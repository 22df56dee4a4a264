package lungwort.tests.benchmark;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.concurrent.TimeUnit;
import lungwort.audio.Recording;
import lungwort.classify.ModelFile;
import lungwort.classify.SoundModel;
import lungwort.examine.Examination;
import lungwort.examine.Examiner;
import lungwort.feature.FeatureExtractor;
import lungwort.feature.TimeSpan;
import lungwort.practice.PracticeScenes;
import lungwort.signal.ChestViews;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** What the shipped model costs: to load, to judge one segment, to measure one segment, to examine a recording of 15 s. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class ExaminationBenchmark {
    private byte[] file = {};
    private Recording recording = new Recording(new double[0], 8000, "none");
    private SoundModel model = read(shipped());
    private Examiner examiner = new Examiner(model);
    private FeatureExtractor extractor = FeatureExtractor.of(ChestViews.of(recording));
    private TimeSpan span = new TimeSpan(0, 1);
    private float[] features = {};

    @Setup
    public void prepare() {
        file = shipped();
        recording = PracticeScenes.of("both").scene().synthesise().recording();
        model = read(file);
        examiner = new Examiner(model);
        extractor = FeatureExtractor.of(ChestViews.of(recording));
        List<TimeSpan> windows = extractor.windows();
        span = windows.get(windows.size() / 2);
        features = extractor.segment(span.startSeconds(), span.endSeconds());
    }

    @Benchmark
    public SoundModel loadModel() {
        return read(file);
    }

    @Benchmark
    public double[] judgeSegment() {
        return model.segmentProbabilities(features);
    }

    @Benchmark
    public float[] measureSegment() {
        return extractor.segment(span.startSeconds(), span.endSeconds());
    }

    @Benchmark
    public Examination examineRecording() {
        return examiner.examine(recording);
    }

    private static SoundModel read(byte[] content) {
        return ModelFile.read(content, "the shipped model");
    }

    private static byte[] shipped() {
        try (InputStream in = ExaminationBenchmark.class.getResourceAsStream("/lungwort/models/lungwort.lungwort")) {
            if (in == null) {
                throw new IllegalStateException("no shipped model on the class path");
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }
}
