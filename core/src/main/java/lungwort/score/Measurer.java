package lungwort.score;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.feature.FeatureExtractor;
import lungwort.feature.MelImage;
import lungwort.feature.TimeSpan;
import lungwort.signal.ChestViews;
import lungwort.sound.SoundSearch;

/** Measures annotated recordings, in parallel, their order kept. */
final class Measurer {
    private static final long ROW_SEED = 500_000;

    private final Measuring measuring;

    Measurer(Measuring measuring) {
        this.measuring = measuring;
    }

    /** What recordings are measured for. */
    enum Purpose {
        /** As it was recorded: learnt from, and answered when held out. */
        ANSWERED,
        /** Learnt from as altered sound: whether it can be judged is not asked. */
        ALTERED_COPY
    }

    /**
     * What is done to the sound of a recording before it is measured.
     *
     * @param id of what is done
     * @param firstSeed the seed of the first recording; each next one has the next
     */
    private record Change(String id, long firstSeed, How how) {
        private interface How {
            Recording apply(Recording recording, long seed);
        }
    }

    /** Recordings as they are. */
    List<Measured> all(List<AnnotatedRecording> recordings, Purpose purpose) {
        return all(recordings, "measuring", purpose, new Change(AlterationRow.NONE.id(), 0, (r, seed) -> r));
    }

    /** Recordings whose sound is altered in one way: a row of a robustness table. */
    List<Measured> all(List<AnnotatedRecording> recordings, SoundChange row) {
        Change change = new Change(row.id(), ROW_SEED, row::apply);
        // What another program decides has no digest here, so nothing of it is kept.
        Measuring kept =
                row instanceof AlterationRow ? measuring : new Measuring(measuring.progress(), MeasureCache.NONE);
        return new Measurer(kept).all(recordings, "measuring", Purpose.ANSWERED, change);
    }

    /** Altered copies of recordings. */
    List<Measured> altered(List<AnnotatedRecording> recordings, long seed) {
        Change change = new Change("copy", seed, Alteration::of);
        return all(recordings, "measuring altered copies", Purpose.ALTERED_COPY, change);
    }

    private List<Measured> all(List<AnnotatedRecording> recordings, String what, Purpose purpose, Change change) {
        AtomicInteger done = new AtomicInteger();
        Measured[] measured = new Measured[recordings.size()];
        IntStream.range(0, measured.length).parallel().forEach(i -> {
            AnnotatedRecording r = recordings.get(i);
            measured[i] = Measured.of(r, kept(r, purpose, change, i), purpose == Purpose.ALTERED_COPY);
            measuring.progress().at(what, done.incrementAndGet(), measured.length);
        });
        return List.of(measured);
    }

    private MeasuredFile kept(AnnotatedRecording r, Purpose purpose, Change change, int index) {
        long seed = change.firstSeed() + index;
        MeasureCache cache = measuring.cache();
        String how = change.id().equals(AlterationRow.NONE.id()) ? change.id() : change.id() + " " + seed;
        String name = cache.name(() -> bytes(r), r.events(), purpose + " " + how);
        return cache.find(name).orElseGet(() -> {
            Recording audio = change.how().apply(RecordingReader.read(r.audio()), seed);
            MeasuredFile measured = measure(audio, r.events(), purpose);
            cache.keep(name, measured);
            return measured;
        });
    }

    private static byte[] bytes(AnnotatedRecording r) {
        try {
            return Files.readAllBytes(r.audio());
        } catch (IOException e) {
            throw BadInput.because(e, "%s: it cannot be read (%s).", r.audio(), e.getMessage());
        }
    }

    private static MeasuredFile measure(Recording audio, List<AnnotatedEvent> marked, Purpose purpose) {
        SoundSearch search = SoundSearch.in(ChestViews.of(audio));
        Breathing breathing = BreathTracker.track(audio);
        FeatureExtractor extractor = FeatureExtractor.of(search, breathing);
        List<TimeSpan> spans = extractor.windows();
        return new MeasuredFile(
                marked.stream()
                        .map(e -> extractor.segment(e.startSeconds(), e.endSeconds()))
                        .toArray(float[][]::new),
                spans,
                spans.stream()
                        .map(s -> extractor.segment(s.startSeconds(), s.endSeconds()))
                        .toArray(float[][]::new),
                extractor.recording(),
                // Whatever the recipe asks for: it costs little, and what is kept then serves recipes with a net too.
                MelImage.bytes(extractor.image()),
                purpose == Purpose.ANSWERED ? Examined.of(audio, search, breathing) : Examined.learntFrom(search));
    }
}
