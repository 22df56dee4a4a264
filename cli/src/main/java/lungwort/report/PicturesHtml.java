package lungwort.report;

import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.examine.Examination;
import lungwort.picture.Words;

/** Spectrograms, and the sound to them. */
final class PicturesHtml {
    private static final int PAPER_PICTURES = 2;

    private final Html html;
    private final ReportContent content;
    private final boolean paper;

    PicturesHtml(Html html, ReportContent content, boolean paper) {
        this.html = html;
        this.content = content;
        this.paper = paper;
    }

    void write(ReportRound round) {
        List<ReportTake> shown = paper
                ? telling(round)
                : round.takes().stream().filter(ReportTake::shown).toList();
        if (shown.isEmpty()) {
            return;
        }
        html.start("section", "class", "pictures");
        html.tag(
                paper ? "h2" : "h3",
                paper
                        ? "Spectrograms of the takes that tell most"
                        : content.options().audio() ? "Spectrograms and sound" : "Spectrograms");
        shown.forEach(this::take);
        html.end();
    }

    /** The takes that tell most of an extra sound, of different places as far as there are any. */
    private static List<ReportTake> telling(ReportRound round) {
        List<ReportTake> sorted = round.takes().stream()
                .filter(t -> t.take().examination().isPresent())
                .sorted(Comparator.comparingDouble((ReportTake t) ->
                        -t.take().examination().map(PicturesHtml::weight).orElse(0.0)))
                .toList();
        List<ReportTake> places = new ArrayList<>();
        List<ReportTake> again = new ArrayList<>();
        for (ReportTake take : sorted) {
            boolean elsewhere = places.stream()
                    .noneMatch(t -> t.take().site().equals(take.take().site()));
            (elsewhere && suggests(take) ? places : again).add(take);
        }
        places.addAll(again);
        return places.subList(0, Math.min(PAPER_PICTURES, places.size()));
    }

    private static boolean suggests(ReportTake take) {
        return take.take().examination().map(PicturesHtml::weight).orElse(0.0) > 0;
    }

    /** Suggestions first, then what left doubt in a good recording, then what suggests nothing, then what is too poor. */
    private static double weight(Examination e) {
        double probability =
                Math.max(e.probabilities().continuous(), e.probabilities().discontinuous());
        return switch (e.suggestion()) {
            case CONTINUOUS, DISCONTINUOUS, BOTH -> 2 + probability;
            case CANNOT_TELL -> e.quality().usable() ? 1 + probability : -1;
            case NONE_HEARD, NONE_STANDS_OUT -> 0;
        };
    }

    private void take(ReportTake take) {
        Examination e = take.take().examination().orElse(null);
        html.start("figure");
        html.tag("figcaption", "%s %s: %s".formatted(take.tag(), take.place(), ReportWords.suggestion(e)));
        BufferedImage picture = Media.picture(take);
        if (picture == null || e == null) {
            html.tag("p", e == null ? "Not examined yet." : "The stored recording is missing or cannot be read.");
        } else {
            html.empty("img", "src", Media.pngUri(picture), "alt", alt(take, e));
        }
        if (!paper) {
            reasons(e);
            sound(take);
        }
        html.end();
    }

    private static String alt(ReportTake take, Examination e) {
        return "Spectrogram of %s %s: %.1f seconds across, 0 to 2000 Hz upwards; %s. %s. Below it %d breaths with their phases."
                .formatted(
                        take.tag(),
                        take.place(),
                        e.durationSeconds(),
                        Words.headline(e),
                        Words.counts(e),
                        e.breathing().breaths().size());
    }

    private void reasons(@org.jspecify.annotations.Nullable Examination e) {
        // What a refused recording resembles says nothing of the chest.
        if (e != null && e.quality().usable() && !e.reasons().isEmpty()) {
            html.start("ul", "class", "reasons");
            ReportWords.listenThere(e).ifPresent(words -> html.tag("li", words));
            e.reasons().forEach(r -> html.tag("li", r));
            html.end();
        }
    }

    private void sound(ReportTake take) {
        byte[] wav = content.options().audio() ? Media.wav(take) : null;
        if (wav != null) {
            html.start(
                            "audio",
                            "controls",
                            "controls",
                            "preload",
                            "none",
                            "aria-label",
                            "Sound of " + take.tag() + " " + take.place(),
                            "src",
                            Media.wavUri(wav))
                    .end();
        }
        html.tag(
                "p",
                "Added to the diary %s. %sSHA-256 of the stored recording: %s."
                        .formatted(
                                ReportWords.time(take.take().recordedAt()),
                                wav == null
                                        ? ""
                                        : "Copy of the recording at up to %d Hz; listen with headphones, small loudspeakers lose the low sounds. "
                                                .formatted(Media.AUDIO_RATE_HZ),
                                take.take().recordingSha256()),
                "class",
                "small");
    }
}
