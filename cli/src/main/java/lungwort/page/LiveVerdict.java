package lungwort.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import lungwort.audio.Recording;
import lungwort.breath.BreathTracker;
import lungwort.json.Json;
import lungwort.quality.LiveQuality;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;

/** What is told while a recording is being made: whether it could be judged so far, what to mend, and how many breaths were heard. */
final class LiveVerdict {
    /** So many breaths are asked for at each place: CORSA's 7 to 10 (from memory). */
    static final int BREATHS_WANTED = 7;

    /** Listened to at once; a recording pushed out by others is measured from its start again. */
    private static final int MOST_LISTENED = 4;

    private static final double BREATHS_FROM_SECONDS = 6;
    private static final double BREATHS_TO_SECONDS = 60;

    /** A recording that still runs is not too short yet. */
    private static final Set<QualityIssue> ONLY_AT_THE_END =
            Set.of(QualityIssue.TOO_SHORT, QualityIssue.TOO_FEW_BREATHS);

    /** Not to be said before a slow breath or two had their time. */
    private static final Set<QualityIssue> ONLY_LATER =
            Set.of(QualityIssue.NO_BREATH, QualityIssue.MOSTLY_HEART, QualityIssue.NOISY);

    private static final double LATER_SECONDS = 8;

    private final Unfinished unfinished;
    private final Map<UUID, Listening> listened = new LinkedHashMap<>();

    LiveVerdict(Unfinished unfinished) {
        this.unfinished = unfinished;
    }

    private static final class Listening {
        final LiveQuality quality;
        long heard;

        Listening(int sampleRateHz) {
            quality = new LiveQuality(sampleRateHz);
        }
    }

    /** The verdict on a recording so far; each of its seconds is measured once. */
    synchronized ObjectNode of(Unfinished.Entry entry) {
        Listening listening = listening(entry);
        if (listening.heard < entry.samples()) {
            listening.quality.push(unfinished.samples(entry, listening.heard));
            listening.heard = entry.samples();
        }
        ObjectNode node = Json.object();
        issues(node.putArray("issues"), listening.quality.quality(), entry.seconds());
        Json.put(node, "seconds", entry.seconds());
        node.put("samples", entry.samples());
        node.put("breaths", breaths(entry));
        node.put("breathsWanted", BREATHS_WANTED);
        return node;
    }

    /** Forgets a recording that was kept or thrown away. */
    synchronized void forget(UUID id) {
        listened.remove(id);
    }

    private Listening listening(Unfinished.Entry entry) {
        Listening listening = listened.computeIfAbsent(entry.id(), id -> new Listening(entry.sampleRateHz()));
        if (listened.size() > MOST_LISTENED) {
            listened.remove(listened.keySet().iterator().next());
        }
        return listening;
    }

    private static void issues(ArrayNode array, Quality quality, double seconds) {
        for (Quality.Finding finding : quality.findings()) {
            QualityIssue issue = finding.issue();
            boolean early = ONLY_AT_THE_END.contains(issue) || (ONLY_LATER.contains(issue) && seconds < LATER_SECONDS);
            if (!early) {
                array.addObject()
                        .put("issue", issue.id())
                        .put("grave", finding.grave())
                        .put("reason", issue.reason())
                        .put("remedy", issue.remedy());
            }
        }
    }

    /** Breaths so far; -1 while it is too early, or too long to count again each second. */
    private int breaths(Unfinished.Entry entry) {
        if (entry.seconds() < BREATHS_FROM_SECONDS || entry.seconds() > BREATHS_TO_SECONDS) {
            return -1;
        }
        Recording soFar = new Recording(unfinished.samples(entry, 0), entry.sampleRateHz(), "recording");
        return BreathTracker.track(soFar).breaths().size();
    }
}
