package lungwort.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import java.util.function.Supplier;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.audio.WavWriter;
import lungwort.diary.Diary;
import lungwort.diary.NewTake;
import lungwort.diary.RecordingStore;
import lungwort.diary.Take;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.json.Json;
import lungwort.round.RoundJson;
import lungwort.round.RoundService;
import org.jspecify.annotations.Nullable;

/** Takes: made here second by second, or brought as files; heard and looked at. */
final class TakeRoutes {
    /** Largest file that the page takes, in bytes. */
    static final int MAX_FILE_BYTES = 64_000_000;

    private static final int MAX_CHUNK_BYTES = 4_000_000;
    private static final String TAKE_OUT_HOW = " (step 3, below the drawing: Recorded so far).";
    private static final DateTimeFormatter NAME = DateTimeFormatter.ofPattern("yyyy-MM-dd-HHmmss");

    private final RoundService service;
    private final Diary diary;
    private final Unfinished unfinished;
    private final LiveVerdict live;

    /** What is being stored now. */
    private final Set<String> storing = ConcurrentHashMap.newKeySet();

    /** Large files are held in memory, so only two at a time. */
    private final Semaphore files = new Semaphore(2);

    TakeRoutes(RoundService service, Unfinished unfinished) {
        this.service = service;
        this.diary = service.diary();
        this.unfinished = unfinished;
        this.live = new LiveVerdict(unfinished);
    }

    void add(RoutesConfig routes) {
        routes.post("/api/rounds/{id}/recordings", this::begin);
        routes.post("/api/recordings/{id}/samples", this::samples);
        routes.post("/api/recordings/{id}/finish", this::finish);
        routes.delete("/api/recordings/{id}", context -> {
            drop(Ids.of(context));
            Answer.json(context, Json.object());
        });
        routes.post("/api/rounds/{id}/files", this::file);
        routes.get("/api/takes/{id}", context -> answer(context, diary.takes().get(Ids.of(context))));
        routes.put("/api/takes/{id}", this::change);
        routes.delete("/api/takes/{id}", this::takeOut);
        routes.get("/api/takes/{id}/sound", this::sound);
        routes.get(
                "/api/takes/{id}/usual",
                context -> Answer.json(
                        context, RoundJson.toJson(service.comparing().usual(Ids.of(context)))));
        routes.get("/api/takes/{id}/levels", context -> Answer.json(context, LevelMap.of(recording(context))));
    }

    private void begin(Context context) {
        JsonNode form = Body.json(context);
        UUID round = Ids.of(context);
        Unfinished.Entry entry = unfinished.begin(
                round,
                Sites.of(Json.text(form, "site")),
                TakeReason.ofId(Json.text(form, "take")),
                Json.integer(form, "sampleRateHz"));
        if (!diary.rounds().has(round)) {
            // Looked for before it was begun, it could be erased between: what is unfinished of it would stay.
            unfinished.drop(entry.id());
            throw Refused.erasedRound();
        }
        Answer.json(context, PageJson.unfinished(entry));
    }

    private void samples(Context context) {
        byte[] pcm = Body.bytes(context, MAX_CHUNK_BYTES);
        Unfinished.Entry entry = unfinished.append(Ids.of(context), number(context.queryParam("from")), pcm);
        if ("no".equals(context.queryParam("verdict"))) {
            Answer.json(context, PageJson.unfinished(entry));
            return;
        }
        Answer.json(context, live.of(entry));
    }

    private void finish(Context context) {
        JsonNode form = Body.json(context);
        Unfinished.Entry entry = unfinished.get(Ids.of(context));
        if (entry.samples() == 0) {
            drop(entry.id());
            throw new BadInput(
                    "The recording holds no sound at all; check that the browser may use the microphone, and record again.");
        }
        Recording recording = new Recording(unfinished.samples(entry, 0), entry.sampleRateHz(), "recording");
        byte[] wav = WavWriter.toBytes(recording, WavWriter.Encoding.PCM_16);
        String name = "%s-%s.wav".formatted(entry.site().id(), NAME.format(LocalDateTime.now(diary.clock())));
        NewTake take =
                new NewTake(entry.roundId(), entry.site(), entry.reason(), name, truth(form, "breathHeard"), false);
        answer(context, alone(entry.id().toString(), () -> {
            // It is there already where the program fell between storing it and forgetting its parts, or where another
            // page of this diary was asked for the same.
            Take added = service.addOnce(take, wav);
            drop(entry.id());
            return added;
        }));
    }

    /** Two windows that ask for the same at the same moment would store it twice. */
    private Take alone(String what, Supplier<Take> work) {
        if (!storing.add(what)) {
            throw new Refused(409, "This recording is being examined already; look again in a moment.");
        }
        try {
            return work.get();
        } finally {
            storing.remove(what);
        }
    }

    private void drop(UUID id) {
        unfinished.drop(id);
        live.forget(id);
    }

    private void file(Context context) {
        Site site = Sites.of(need(context, "site"));
        TakeReason reason = TakeReason.ofId(need(context, "take"));
        UUID round = diary.rounds().get(Ids.of(context)).id();
        if (!files.tryAcquire()) {
            throw new Refused(429, "Two files are being read already; wait a moment, then try again.");
        }
        try {
            byte[] content = Body.bytes(context, MAX_FILE_BYTES);
            NewTake take = new NewTake(round, site, reason, need(context, "name"));
            String what = round + site.id() + reason.id() + RecordingStore.hashOf(content);
            answer(context, alone(what, () -> {
                if (service.holds(take, content)) {
                    throw new Refused(
                            409,
                            "This very recording is in the round already, at the same place; choose another file.");
                }
                elsewhereRefused(take, content);
                return service.add(take, content, readable(content, take.fileName()));
            }));
        } finally {
            files.release();
        }
    }

    private void elsewhereRefused(NewTake take, byte[] content) {
        try {
            service.refuseElsewhere(take, content, own -> TAKE_OUT_HOW);
        } catch (BadInput e) {
            throw new Refused(409, String.valueOf(e.getMessage()));
        }
    }

    /** Only this refusal tells the browser to try whether it can decode the file itself. */
    private Recording readable(byte[] content, String name) {
        try {
            return service.read(content, name);
        } catch (BadInput e) {
            throw new Refused(415, String.valueOf(e.getMessage()));
        }
    }

    private void change(Context context) {
        JsonNode form = Body.json(context);
        Take take = diary.takes().get(Ids.of(context));
        Boolean heard = form.has("breathHeard") ? truth(form, "breathHeard") : take.breathHeard();
        boolean known = form.has("knownToClinician") ? Json.bool(form, "knownToClinician") : take.knownToClinician();
        diary.takes().change(take.id(), take.reason(), heard, known);
        if (form.has("breathingStopped")) {
            diary.takes().sayBreathingStopped(take.id(), truth(form, "breathingStopped"));
        }
        answer(context, diary.takes().get(take.id()));
    }

    private void takeOut(Context context) {
        service.takingOut().takeOut(Ids.of(context));
        Answer.json(context, Json.object());
    }

    /** Always as WAV, so that every browser can play what any device wrote. */
    private void sound(Context context) {
        context.contentType("audio/wav").result(WavWriter.toBytes(recording(context), WavWriter.Encoding.PCM_16));
    }

    private Recording recording(Context context) {
        Take take = diary.takes().get(Ids.of(context));
        return RecordingReader.read(diary.recordings().read(take.recordingSha256()), take.fileName());
    }

    private void answer(Context context, Take take) {
        ObjectNode node = PageJson.take(take);
        node.put("person", PageJson.personOf(diary, take.roundId()).nickname());
        node.put("caution", lungwort.examine.Examination.CAUTION);
        Answer.json(context, node);
    }

    private static String need(Context context, String name) {
        String value = context.queryParam(name);
        if (value == null || value.isBlank()) {
            throw new BadInput("The field \"%s\" is missing.".formatted(name));
        }
        return value;
    }

    private static long number(@Nullable String text) {
        try {
            return Long.parseLong(Objects.requireNonNullElse(text, ""));
        } catch (NumberFormatException e) {
            throw new BadInput("The number \"%s\" cannot be read.".formatted(text), e);
        }
    }

    private static @Nullable Boolean truth(JsonNode form, String field) {
        JsonNode value = form.get(field);
        return value == null || value.isNull() ? null : (Boolean) Json.bool(form, field);
    }
}
