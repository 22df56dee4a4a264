package lungwort.page;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Objects;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.compare.Comparer;
import lungwort.compare.ComparisonJson;
import lungwort.compare.Relation;
import lungwort.compare.TakeMeasures;
import lungwort.diary.Diary;
import lungwort.diary.Take;

/** Any two takes beside each other, as {@code lungwort compare} puts them. */
final class CompareRoutes {
    private final Diary diary;

    CompareRoutes(Diary diary) {
        this.diary = diary;
    }

    void add(RoutesConfig routes) {
        routes.get("/api/compare", this::compare);
    }

    private void compare(Context context) {
        Take first = take(context, "a");
        Take second = take(context, "b");
        Answer.json(
                context,
                ComparisonJson.toJson(
                        Comparer.standard().compare(measures(first), measures(second), relation(first, second), true)));
    }

    private Take take(Context context, String name) {
        return diary.takes().get(Ids.parse(Objects.requireNonNullElse(context.queryParam(name), "")));
    }

    private TakeMeasures measures(Take take) {
        Recording recording = RecordingReader.read(diary.recordings().read(take.recordingSha256()), take.fileName());
        return TakeMeasures.of(
                recording,
                take.examination()
                        .orElseThrow(() -> new BadInput("This take was not examined yet, so it cannot be compared.")));
    }

    private static Relation relation(Take first, Take second) {
        if (!first.roundId().equals(second.roundId())) {
            return first.site().equals(second.site()) ? Relation.EARLIER_LATER : Relation.FIRST_SECOND;
        }
        return Objects.requireNonNullElse(Relation.between(first.site(), second.site()), Relation.FIRST_SECOND);
    }
}
