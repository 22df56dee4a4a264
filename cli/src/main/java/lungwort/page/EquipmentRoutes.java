package lungwort.page;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.time.LocalDate;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicReference;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.diary.Diary;
import lungwort.json.Json;
import org.jspecify.annotations.Nullable;

/** The equipment check. Its recordings are not kept; what the last one found is, as one line. */
final class EquipmentRoutes {
    /** Name of the setting that holds the last result. */
    static final String SETTING = "equipment-check";

    private static final int MAX_BYTES = 4_000_000;
    private static final double FULL_SCALE = 32_768;

    private final Diary diary;

    /** The last silence test, to which the bandwidth test is compared. */
    private final AtomicReference<@Nullable Recording> quiet = new AtomicReference<>();

    EquipmentRoutes(Diary diary) {
        this.diary = diary;
    }

    void add(RoutesConfig routes) {
        routes.post("/api/equipment/{test}", this::test);
    }

    private void test(Context context) {
        Recording recording = recording(Body.bytes(context, MAX_BYTES), rate(context.queryParam("rate")));
        Equipment.Check check = switch (context.pathParam("test")) {
            case "tap" -> Equipment.tap(recording);
            case "silence" -> {
                quiet.set(recording);
                yield Equipment.silence(recording);
            }
            case "bandwidth" -> bandwidth(recording);
            default -> throw new Refused(404, "There is no such test.");
        };
        ObjectNode node = Json.object().put("id", check.id()).put("passed", check.passed());
        Json.put(node, "value", check.value());
        Answer.json(context, node);
    }

    private Equipment.Check bandwidth(Recording rubbing) {
        Recording floor = quiet.get();
        if (floor == null) {
            throw new BadInput("Do the silence test first: this test is compared with it.");
        }
        Equipment.Check check = Equipment.bandwidth(rubbing, floor);
        diary.settings().set(SETTING, "%s %s %.0f".formatted(LocalDate.now(diary.clock()), check.id(), check.value()));
        return check;
    }

    private static Recording recording(byte[] pcm, int rateHz) {
        ByteBuffer in = ByteBuffer.wrap(pcm).order(ByteOrder.LITTLE_ENDIAN);
        double[] samples = new double[pcm.length / 2];
        for (int i = 0; i < samples.length; i++) {
            samples[i] = in.getShort() / FULL_SCALE;
        }
        return new Recording(samples, rateHz, "equipment check");
    }

    private static int rate(@Nullable String text) {
        try {
            return Integer.parseInt(Objects.requireNonNullElse(text, ""));
        } catch (NumberFormatException e) {
            throw new BadInput("The sample rate \"%s\" cannot be read.".formatted(text), e);
        }
    }
}
