package lungwort.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import lungwort.audio.Recording;
import lungwort.breath.BreathTracker;
import lungwort.breath.Breathing;
import lungwort.json.Json;
import lungwort.quality.Quality;
import lungwort.quality.QualityCheck;
import lungwort.quality.QualityIssue;

/** What is told while a recording is being made: whether it could be judged so far, what to mend, and how many breaths were heard. */
final class LiveVerdict {
    /** So many breaths are asked for at each place: CORSA's 7 to 10 (from memory). */
    static final int BREATHS_WANTED = 7;

    private static final double BREATHS_FROM_SECONDS = 6;
    private static final double BREATHS_TO_SECONDS = 60;

    private LiveVerdict() {}

    /** The verdict on a recording so far. */
    static ObjectNode of(Recording soFar) {
        ObjectNode node = Json.object();
        Quality quality = QualityCheck.check(soFar);
        ArrayNode issues = node.putArray("issues");
        for (Quality.Finding finding : quality.findings()) {
            // A recording that still runs is not too short yet.
            if (finding.issue() != QualityIssue.TOO_SHORT) {
                issues.addObject()
                        .put("issue", finding.issue().id())
                        .put("grave", finding.grave())
                        .put("reason", finding.issue().reason())
                        .put("remedy", finding.issue().remedy());
            }
        }
        Json.put(node, "seconds", soFar.durationSeconds());
        node.put("breaths", breaths(soFar));
        node.put("breathsWanted", BREATHS_WANTED);
        return node;
    }

    /** Breaths so far; -1 while it is too early, or too long to count again each second. */
    private static int breaths(Recording soFar) {
        double seconds = soFar.durationSeconds();
        if (seconds < BREATHS_FROM_SECONDS || seconds > BREATHS_TO_SECONDS) {
            return -1;
        }
        Breathing breathing = BreathTracker.track(soFar);
        return breathing.breaths().size();
    }
}
